"""The rule `stale`."""

from __future__ import annotations

from checks.books import put, recipe

BREAKER = recipe(put("superfat: SUPERFAT", "superfat: 4.9 %"))
TOLD = [
    (
        "recipes/tried.md:12:13",
        "error",
        "superfat is stated as 4.9 % and is now 5.0 %",
        "if the recipe is right, run: saponary restate tried",
    ),
]
NEIGHBOUR = recipe(put("superfat: SUPERFAT", "superfat: 5 %"))
