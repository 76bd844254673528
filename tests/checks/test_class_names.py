"""The rule `class-names`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("[tried]", "[tride]", LESSON))
NEIGHBOUR = recipe(GOOD, lesson=LESSON)
