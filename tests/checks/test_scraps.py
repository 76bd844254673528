"""The rule `scraps`."""

from __future__ import annotations

from checks.books import GOOD, recipe

BREAKER = recipe(GOOD, pantry="scraps: {odds: {of: tride}}\n")
TOLD = [
    (
        "pantry.yaml:1:1",
        "warning",
        "the scrap 'odds' is said to be of 'tride', which is not a recipe here",
        "name the recipe it was cut from; did you mean 'tried'?",
    ),
]
NEIGHBOUR = recipe(GOOD, pantry="scraps: {odds: {of: tried}}\n")
ALSO = [
    (
        recipe(GOOD, pantry="scraps: {odds: {of: tride}, ends: {of: nothing-like-it}, bits: {of: tried}}\n"),
        [
            (
                "pantry.yaml:1:1",
                "warning",
                "the scrap 'ends' is said to be of 'nothing-like-it', which is not a recipe here",
                "name the recipe it was cut from; known recipes: tried; or waive it with your reason: waive: [{rule: scraps, about: ends, because: …}]",
            ),
            (
                "pantry.yaml:1:1",
                "warning",
                "the scrap 'odds' is said to be of 'tride', which is not a recipe here",
                "name the recipe it was cut from; did you mean 'tried'?; or waive it with your reason: waive: [{rule: scraps, about: odds, because: …}]",
            ),
        ],
    ),
]
