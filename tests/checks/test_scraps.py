"""The rule `scraps`."""

from __future__ import annotations

from checks.books import GOOD, recipe

BREAKER = recipe(GOOD, pantry="scraps: {odds: {of: tride}}\n")
TOLD = [
    (
        "pantry.yaml:1:1",
        "warning",
        "the scrap 'odds' is said to be of 'tride', which is no recipe here",
        "name the recipe it was cut from; did you mean 'tried'?",
    ),
]
NEIGHBOUR = recipe(GOOD, pantry="scraps: {odds: {of: tried}}\n")
