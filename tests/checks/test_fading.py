"""The rule `fading`."""

from __future__ import annotations

from checks.books import TWO, more, recipe

BREAKER = recipe(
    more("pour: [{beds: [{of: light}, {of: dark}]}]\nadditions: [{what: turmeric, amount: 4 g/kg}]\n", TWO)
)
NEIGHBOUR = recipe(more("additions: [{what: turmeric, amount: 4 g/kg}]\n", TWO))
