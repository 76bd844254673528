"""The rule `lots`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("batches: [{lot: A1, poured: 2026-03-02}, {lot: A1, poured: 2026-03-03}]\n"))
NEIGHBOUR = recipe(more("batches: [{lot: A1, poured: 2026-03-02}, {lot: A2, poured: 2026-03-02}]\n"))
