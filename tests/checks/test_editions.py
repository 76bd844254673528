"""The rule `editions`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("editions: [shopp]\n"))
TOLD = [
    ("recipes/tried.md:11:12", "error", "there is no edition 'shopp'", "did you mean 'shop'?"),
]
NEIGHBOUR = recipe(more("editions: [shop]\n"))
