"""The rule `editions`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("editions: [shopp]\n"))
NEIGHBOUR = recipe(more("editions: [shop]\n"))
