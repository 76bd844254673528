"""The rule `class-names`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(GOOD, lesson=put("[tried]", "[tride]", LESSON))
TOLD = [
    ("classes/one.md:5:11", "error", "there is no recipe 'tride'", "did you mean 'tried'?"),
]
NEIGHBOUR = recipe(GOOD, lesson=LESSON)
