"""The rule `batches`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("batches: [{lot: A1, poured: 2026-03-02, formula: 123456}]\n"))
NEIGHBOUR = recipe(more("batches: [{lot: A1, poured: 2026-03-02}]\n"))
