"""The rule `unsigned`."""

from __future__ import annotations

from checks.books import put, recipe

BREAKER = recipe(put("  formula: FINGERPRINT\n", ""))
NEIGHBOUR = recipe(put("  superfat: SUPERFAT\n", ""))
