"""The rule `draft`."""

from __future__ import annotations

from checks.books import GOOD, OTHER, put, recipe

BREAKER = recipe(put("signed:\n  superfat: SUPERFAT\n  formula: FINGERPRINT\n", ""))
TOLD = [
    (
        "recipes/tried.md:2:1",
        "warning",
        "nothing is signed: this is a draft, and only the maker's edition shows it",
        "to see it, run: saponary build --edition maker; when the figures are right, run: saponary sign tried",
    ),
]
NEIGHBOUR = recipe(put("  superfat: SUPERFAT\n", ""))
ALSO = [
    (
        recipe(GOOD, **{"recipes/zeal.md": OTHER.split("signed:")[0] + "---\nZ.\n"}),
        [
            (
                "recipes/zeal.md:2:1",
                "warning",
                "nothing is signed: this is a draft, and only the maker's edition shows it",
                "to see it, run: saponary build --edition maker; when the figures are right, run: saponary sign zeal; or waive it with your reason: waive: [{rule: draft, because: …}]",
            )
        ],
    ),
]
