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
ALSO = [
    (
        recipe(
            more(
                "batches: [{lot: A1, poured: 2026-03-02}, {lot: A2, poured: 2026-03-02, formula: '123456'}, {lot: A3, poured: 2026-03-02, formula: FINGERPRINT}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:81",
                "warning",
                "lot A2 was poured to an earlier formula, 123456",
                "the recipe's formula is now 267c1d7c1636; pour and record a batch to it; or waive it with your reason: waive: [{rule: batches, about: A2, because: …}]",
            )
        ],
    ),
]
