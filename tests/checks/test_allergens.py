"""The rule `allergens`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(
    more("additions: [{what: harbour-scent, amount: 20 g}]\n"),
    pantry="fragrances: {harbour-scent: {composition: {linalol: 4 %}, certificate: {maximum: 3 %}}}\n",
)
TOLD = [
    (
        "recipes/tried.md:11:20",
        "error",
        "the sheet of 'harbour-scent' in pantry.yaml names 'linalol', which is no fragrance allergen known here",
        "did you mean 'linalool'?",
    ),
]
NEIGHBOUR = recipe(
    more("additions: [{what: harbour-scent, amount: 20 g}]\n"),
    pantry="fragrances: {harbour-scent: {composition: {linalool: 4 %}, certificate: {maximum: 3 %}}}\n",
)
