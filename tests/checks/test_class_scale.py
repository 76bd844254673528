"""The rule `class-scale`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("500 g", "20 g", LESSON))
TOLD = [
    (
        "classes/one.md:4:7",
        "error",
        "at this size tried has a superfat of -1.9 % once its weights are rounded to 1 g, instead of 5.0 %",
        "make more of it, or use a finer scale",
    ),
]
NEIGHBOUR = recipe(GOOD, lesson=put("500 g", "250 g", LESSON))
ALSO = [
    (
        recipe(GOOD, lesson=put("oils: 500 g", "oils: 60 g", LESSON)),
        [
            (
                "classes/one.md:4:7",
                "warning",
                "at this size tried has a superfat of 9.4 % once its weights are rounded to 1 g, instead of 5.0 %",
                "make more of it, or use a finer scale",
            )
        ],
    ),
    (
        recipe(
            GOOD,
            lesson=put("oils: 500 g", "mould: box\nto: 2 %", LESSON),
            pantry="moulds: {box: {loaf: {length: 100 mm, width: 100 mm, height: 80 mm}}}\n",
        ),
        [
            (
                "classes/one.md:4:8",
                "error",
                "at this size tried has a superfat of -13.3 % once its weights are rounded to 1 g, instead of 5.0 %",
                "make more of it, or use a finer scale",
            )
        ],
    ),
    (
        recipe(GOOD, lesson=put("oils: 500 g", "oils: 20 g", LESSON), book="scale-step: 5 g\n"),
        [
            (
                "classes/one.md:4:7",
                "error",
                "at this size tried has a superfat of -70.0 % once its weights are rounded to 5 g, instead of 5.0 %",
                "make more of it, or use a finer scale",
            )
        ],
    ),
]
