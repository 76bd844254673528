"""The rule `potassium`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("method: cream\n"))
TOLD = [
    (
        "recipes/tried.md:11:9",
        "error",
        "method: cream needs potassium hydroxide, half of the equivalents or more",
        "add lye: {potassium: {share: 100 %, purity: 90 %}}, or make a bar",
    ),
]
NEIGHBOUR = recipe(more("method: cream\nlye: {potassium: {share: 100 %, purity: 90 %}}\n"))
