"""The rule `unsigned`."""

from __future__ import annotations

from checks.books import GOOD, OTHER, put, recipe

BREAKER = recipe(put("  formula: FINGERPRINT\n", ""))
TOLD = [
    (
        "recipes/tried.md:11:1",
        "warning",
        "the formula's fingerprint is not signed",
        "run: saponary sign tried",
    ),
]
NEIGHBOUR = recipe(put("  superfat: SUPERFAT\n", ""))
ALSO = [
    (
        recipe(GOOD, **{"recipes/zeal.md": OTHER}),
        [
            (
                "recipes/zeal.md:12:1",
                "warning",
                "the formula's fingerprint is not signed",
                "run: saponary sign zeal; or waive it with your reason: waive: [{rule: unsigned, because: …}]",
            )
        ],
    ),
]
