"""The rule `bare-figure`: a number in a sentence that is none of the recipe's."""

from __future__ import annotations

from checks.books import GOOD, recipe

BREAKER = recipe(GOOD + "Weigh out 999 g of lye.\n")
TOLD = [
    (
        "recipes/tried.md:16:11",
        "warning",
        "“999 g” stands beside 'lye' and is no figure of this recipe",
        "write {lye}, or {lye = 139.8 g}, so that each build checks it",
    ),
]
NEIGHBOUR = recipe(GOOD + "Weigh out {lye} of lye.\n")
