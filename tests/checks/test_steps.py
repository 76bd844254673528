"""The rule `steps`."""

from __future__ import annotations

from checks.books import TWO, more, recipe

BREAKER = recipe(more("steps: [{at: portion, portion: drak, say: Stir.}]\n", TWO))
TOLD = [
    ("recipes/tried.md:14:32", "error", "there is no portion 'drak'", "did you mean 'dark'?"),
]
NEIGHBOUR = recipe(more("steps: [{at: portion, portion: dark, say: Stir.}]\n", TWO))
