"""The rule `pour`."""

from __future__ import annotations

from checks.books import TWO, more, recipe

BREAKER = recipe(more("pour: [{beds: [{of: light}, {of: grey}, {of: dark}]}]\n", TWO))
TOLD = [
    ("recipes/tried.md:14:34", "error", "there is no portion 'grey'", "known portions: dark, light"),
]
NEIGHBOUR = recipe(more("pour: [{beds: [{of: light}, {of: dark}]}]\n", TWO))
