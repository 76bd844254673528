"""The rule `batches`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("batches: [{lot: A1, poured: 2026-03-02, formula: 123456}]\n"))
TOLD = [
    (
        "recipes/tried.md:11:50",
        "warning",
        "lot A1 was poured to an earlier formula, 123456",
        "the recipe's formula is now 267c1d7c1636; pour and record a batch to it",
    ),
]
NEIGHBOUR = recipe(more("batches: [{lot: A1, poured: 2026-03-02}]\n"))
