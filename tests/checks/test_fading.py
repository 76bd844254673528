"""The rule `fading`."""

from __future__ import annotations

from checks.books import TWO, more, recipe

BREAKER = recipe(
    more("pour: [{beds: [{of: light}, {of: dark}]}]\nadditions: [{what: turmeric, amount: 4 g/kg}]\n", TWO)
)
TOLD = [
    (
        "recipes/tried.md:15:20",
        "warning",
        "turmeric will not keep its colour: the bar goes from #b5642c to #d8bf78",
        "plan the face for the cured colour",
    ),
]
NEIGHBOUR = recipe(more("additions: [{what: turmeric, amount: 4 g/kg}]\n", TWO))
