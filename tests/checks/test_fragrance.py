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
        "stay below 40.0 g in all; the batch is calculated as 1333 g of cured soap",
    ),
]
NEIGHBOUR = recipe(
    more("additions: [{what: harbour-scent, amount: 20 g}]\n"),
    pantry="fragrances: {harbour-scent: {composition: {linalool: 4 %}, certificate: {maximum: 3 %}}}\n",
)
ALSO = [
    (
        recipe(
            more("additions: [{what: both, amount: 120 g}, {what: two, amount: 5 g}]\n"),
            pantry="fragrances: {one: {certificate: {maximum: 3 %}}, two: {composition: {linalool: 4 %, butylphenyl methylpropional: 1 %, moonshine: 2 %, limonen: 1 %}}, both: {blend: {one: 50 %, two: 50 %}}}\n",
        ),
        [
            (
                "recipes/tried.md:11:20",
                "warning",
                "no certificate says how much 'two' a bar may hold",
                "add certificate: {maximum: …, from: …} to it under fragrances: in pantry.yaml; or waive it with your reason: waive: [{rule: fragrance, about: two, because: …}]",
            ),
            (
                "recipes/tried.md:11:34",
                "error",
                "'one' makes 4.27 % of the cured bar; its certificate allows 3 %",
                "stay below 42.2 g in all; the batch is calculated as 1405 g of cured soap; or waive it with your reason: waive: [{rule: fragrance, about: one, because: …}]",
            ),
        ],
    ),
]
