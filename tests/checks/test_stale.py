"""The rule `stale`."""

from __future__ import annotations

from checks.books import put, recipe

BREAKER = recipe(put("superfat: SUPERFAT", "superfat: 4.9 %"))
NEIGHBOUR = recipe(put("superfat: SUPERFAT", "superfat: 5 %"))
