"""The rule `fragrance`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(
    more("additions: [{what: harbour-scent, amount: 60 g}]\n"),
    pantry="fragrances: {harbour-scent: {composition: {linalool: 4 %}, certificate: {maximum: 3 %}}}\n",
)
TOLD = [
    (
        "recipes/tried.md:11:43",
        "error",
        "'harbour-scent' makes 4.50 % of the cured bar; its certificate allows 3 %",
        "stay below 40.0 g in all; the bar is reckoned at 1333 g of soap cured",
    ),
]
NEIGHBOUR = recipe(
    more("additions: [{what: harbour-scent, amount: 20 g}]\n"),
    pantry="fragrances: {harbour-scent: {composition: {linalool: 4 %}, certificate: {maximum: 3 %}}}\n",
)
