"""The rule `sugar-in-lye`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("liquids: [{what: goat-milk, amount: 60 g, at: lye}]\n"))
NEIGHBOUR = recipe(more("liquids: [{what: goat-milk, amount: 60 g, at: trace}]\n"))
