"""The rule `class-packs`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("recipes:", "packs: {castor: 1 kg}\nrecipes:", LESSON))
TOLD = [
    ("classes/one.md:5:9", "warning", "no recipe of this class uses 'castor'", "leave this pack out"),
]
NEIGHBOUR = recipe(GOOD, lesson=put("recipes:", "packs: {olive: 1 kg}\nrecipes:", LESSON))
