"""The rule `worst-case-superfat`: below zero where every oil lies at the low end of its range."""

from __future__ import annotations

from dataclasses import replace

import pytest

from checks.books import good, put, recipe, with_figures
from saponary.checks.worst_case_superfat import check

BREAKER = recipe(put("superfat: 5 %", "superfat: 2 %"))
TOLD = [
    (
        "recipes/tried.md:9:11",
        "warning",
        "if every oil lay at the low end of its range the superfat would be -1.3 % (likely -0.2 to 3.9 %)",
        "raise the superfat, or put a supplier's certificate with its range into pantry.yaml",
    ),
]
NEIGHBOUR = recipe(put("superfat: 5 %", "superfat: 4.5 %"))
ALSO = [
    (
        recipe(put("superfat: 5 %", "superfat: 1 %")),
        [
            (
                "recipes/tried.md:9:11",
                "warning",
                "if every oil lay at the low end of its range the superfat would be -2.3 % (likely -1.2 to 2.9 %)",
                "raise the superfat, or put a supplier's certificate with its range into pantry.yaml; or waive it with your reason: waive: [{rule: worst-case-superfat, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(
    ("nominal", "low", "count"), [(0.05, 0.0, 0), (0.05, -1e-9, 1), (-0.01, -0.05, 0), (0.0, -0.02, 1)]
)
def test_zero_is_the_limit(nominal: float, low: float, count: int) -> None:
    bands = good().figures.bands
    worst = replace(bands, worst=replace(bands.worst, low=low))
    assert len(list(check(with_figures(superfat=nominal, bands=worst)))) == count
