"""The rule `worst-case-superfat`: below zero where every oil lies at the low end of its range."""

from __future__ import annotations

from dataclasses import replace

import pytest

from checks.books import good, put, recipe, with_figures
from saponary.checks.worst_case_superfat import check

BREAKER = recipe(put("superfat: 5 %", "superfat: 2 %"))
NEIGHBOUR = recipe(put("superfat: 5 %", "superfat: 4.5 %"))


@pytest.mark.parametrize(
    ("nominal", "low", "count"), [(0.05, 0.0, 0), (0.05, -1e-9, 1), (-0.01, -0.05, 0), (0.0, -0.02, 1)]
)
def test_zero_is_the_limit(nominal: float, low: float, count: int) -> None:
    bands = good().figures.bands
    worst = replace(bands, worst=replace(bands.worst, low=low))
    assert len(list(check(with_figures(superfat=nominal, bands=worst)))) == count
