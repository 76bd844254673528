"""The rule `class-scale`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("500 g", "20 g", LESSON))
NEIGHBOUR = recipe(GOOD, lesson=put("500 g", "250 g", LESSON))
