"""The rule `draft`."""

from __future__ import annotations

from checks.books import put, recipe

BREAKER = recipe(put("stated:\n  superfat: SUPERFAT\n  formula: FINGERPRINT\n", ""))
NEIGHBOUR = recipe(put("  superfat: SUPERFAT\n", ""))
