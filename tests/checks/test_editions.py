"""The rule `editions`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("editions: [shopp]\n"))
TOLD = [
    ("recipes/tried.md:11:12", "error", "there is no edition 'shopp'", "did you mean 'shop'?"),
]
NEIGHBOUR = recipe(more("editions: [shop]\n"))
ALSO = [
    (
        recipe(
            more(
                "editions: [shop, clas]\nbatches: [{lot: A1, poured: 2026-03-02, editions: [shop]}, {lot: A2, poured: 2026-03-02, editions: [shop, guild, gild]}]\n"
            )
        ),
        [
            ("recipes/tried.md:11:18", "error", "there is no edition 'clas'", "did you mean 'class'?"),
            (
                "recipes/tried.md:12:107",
                "error",
                "there is no edition 'guild'",
                "known editions: class, maker, public, shop",
            ),
            (
                "recipes/tried.md:12:114",
                "error",
                "there is no edition 'gild'",
                "known editions: class, maker, public, shop",
            ),
        ],
    ),
]
