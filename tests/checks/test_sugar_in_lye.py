"""The rule `sugar-in-lye`."""

from __future__ import annotations

from checks.books import TWO, more, put, recipe

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
ALSO = [
    (
        recipe(
            more("additions: [{what: honey, amount: 8 g, at: lye}, {what: kaolin, amount: 8 g, at: lye}]\n")
        ),
        [
            (
                "recipes/tried.md:11:20",
                "warning",
                "honey holds sugars that hot lye turns to carbon monoxide",
                "add it at trace; or frozen, slowly, cold, open and aired, never in a closed vessel; or waive it with your reason: waive: [{rule: sugar-in-lye, about: honey, because: …}]",
            )
        ],
    ),
    (
        recipe(
            put(
                "- {name: light, share: 1/2}",
                "- {name: light, share: 1/2, additions: [{what: honey, amount: 8 g, at: lye}], liquids: [{what: goat-milk, amount: 20 g, at: lye}]}",
                TWO.replace("33 %", "28 %"),
            )
        ),
        [
            (
                "recipes/tried.md:12:50",
                "warning",
                "honey holds sugars that hot lye turns to carbon monoxide",
                "add it at trace; or frozen, slowly, cold, open and aired, never in a closed vessel; or waive it with your reason: waive: [{rule: sugar-in-lye, about: honey in light, because: …}]",
            ),
            (
                "recipes/tried.md:12:127",
                "warning",
                "goat-milk holds sugars that hot lye turns to carbon monoxide",
                "add it at trace; or frozen, slowly, cold, open and aired, never in a closed vessel; or waive it with your reason: waive: [{rule: sugar-in-lye, about: goat-milk in light, because: …}]",
            ),
        ],
    ),
]
