"""The rule `sugar-in-lye`."""

from __future__ import annotations

from checks.books import more, put, recipe

WEAK = put("{lye-strength: 33 %}", "{lye-strength: 28 %}")
"""So that milk's ice holds it."""

BREAKER = recipe(more("liquids: [{what: goat-milk, amount: 60 g, at: lye}]\n", WEAK))
TOLD = [
    (
        "recipes/tried.md:11:47",
        "warning",
        "goat-milk holds sugars that hot lye turns to carbon monoxide",
        "add it at trace; or frozen, slowly, cold, open and aired, never in a closed vessel",
    ),
]
NEIGHBOUR = recipe(more("liquids: [{what: goat-milk, amount: 60 g, at: trace}]\n"))
