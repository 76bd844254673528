"""The rule `lots`."""

from __future__ import annotations

from checks.books import OTHER, more, recipe

BREAKER = recipe(more("batches: [{lot: A1, poured: 2026-03-02}, {lot: A1, poured: 2026-03-03}]\n"))
TOLD = [
    ("recipes/tried.md:11:48", "error", "the lot 'A1' is recorded twice", "give each batch its own lot"),
]
NEIGHBOUR = recipe(more("batches: [{lot: A1, poured: 2026-03-02}, {lot: A2, poured: 2026-03-02}]\n"))
ALSO = [
    (
        recipe(
            more("batches: [{lot: A1, poured: 2026-03-02}, {lot: A2, poured: 2026-03-02}]\n"),
            **{"recipes/zeal.md": OTHER},
        ),
        [
            (
                "recipes/zeal.md:11:17",
                "error",
                "the lot 'A1' is recorded for 'tried' too",
                "give each batch of the book its own lot",
            )
        ],
    ),
]
