"""The rule `class-packs`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("recipes:", "packs: {castor: 1 kg}\nrecipes:", LESSON))
TOLD = [
    ("classes/one.md:5:9", "warning", "no recipe of this class uses 'castor'", "leave this pack out"),
]
NEIGHBOUR = recipe(GOOD, lesson=put("recipes:", "packs: {olive: 1 kg}\nrecipes:", LESSON))
ALSO = [
    (
        recipe(
            GOOD,
            lesson=put(
                "oils: 500 g\n",
                "oils: 500 g\npacks: {olive: 500 g, castor: 500 g, water: 1 kg, sodium-hydroxide: 250 g, lard: 1 kg}\n",
                LESSON,
            ),
        ),
        [
            (
                "classes/one.md:5:23",
                "warning",
                "no recipe of this class uses 'castor'",
                "leave this pack out; or waive it with your reason: waive: [{rule: class-packs, about: castor, because: …}]",
            ),
            (
                "classes/one.md:5:76",
                "warning",
                "no recipe of this class uses 'lard'",
                "leave this pack out; or waive it with your reason: waive: [{rule: class-packs, about: lard, because: …}]",
            ),
        ],
    ),
]
