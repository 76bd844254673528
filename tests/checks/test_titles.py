"""The rule `titles`."""

from __future__ import annotations

from checks.books import GOOD, recipe

BREAKER = recipe(GOOD, **{"recipes/other.md": GOOD.replace("Plain", "PLAIN")})
TOLD = [
    (
        "recipes/tried.md:2:8",
        "warning",
        "recipes/other.md has the same title",
        "give each recipe its own title",
    ),
]
NEIGHBOUR = recipe(GOOD, **{"recipes/other.md": GOOD.replace("Plain", "Plainer")})
