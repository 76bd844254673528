"""The rule `class-names`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("[tried]", "[tride]", LESSON))
TOLD = [
    ("classes/one.md:5:11", "error", "there is no recipe 'tride'", "did you mean 'tried'?"),
]
NEIGHBOUR = recipe(GOOD, lesson=LESSON)
ALSO = [
    (
        recipe(
            GOOD,
            lesson=put(
                "[tried]",
                "[tried, tried]\npacks: {olive: 500 g, oliv: 500 g, sodium-hydroxide: 250 g, water: 1 kg, goat-milk: 1 kg, kaolin: 60 g}",
                LESSON,
            ),
            **{
                "classes/two.md": put("oils: 500 g", "mould: bx\nto: 90 %", LESSON),
                "classes/zero.md": "---\ntitle: Zero\n---\n",
            },
            pantry="moulds: {box: {loaf: {length: 250 mm, width: 90 mm, height: 80 mm}}}\n",
        ),
        [
            ("classes/one.md:5:18", "error", "the recipe 'tried' is named twice", "name each recipe once"),
            ("classes/one.md:6:23", "error", "'oliv' is not in the pantry", "did you mean 'olive'?"),
            ("classes/two.md:4:8", "error", "the mould 'bx' is not in the pantry", "did you mean 'box'?"),
        ],
    ),
]
