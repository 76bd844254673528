"""The rule `potassium`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("serves: paste\n"))
TOLD = [
    (
        "recipes/tried.md:11:9",
        "error",
        "a paste needs potassium hydroxide",
        "add lye: {potassium: {share: 100 %, purity: 90 %}}, or serves: bar",
    ),
]
NEIGHBOUR = recipe(more("serves: paste\nlye: {potassium: {share: 100 %, purity: 90 %}}\n"))
