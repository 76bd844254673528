"""The rule `class-packs`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("recipes:", "packs: {castor: 1 kg}\nrecipes:", LESSON))
NEIGHBOUR = recipe(GOOD, lesson=put("recipes:", "packs: {olive: 1 kg}\nrecipes:", LESSON))
