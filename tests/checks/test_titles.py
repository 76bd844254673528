"""The rule `titles`."""

from __future__ import annotations

from checks.books import GOOD, recipe

BREAKER = recipe(GOOD, **{"recipes/other.md": GOOD.replace("Plain", "PLAIN")})
NEIGHBOUR = recipe(GOOD, **{"recipes/other.md": GOOD.replace("Plain", "Plainer")})
