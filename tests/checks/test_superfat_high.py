"""The rule `superfat-high`. Its limit: common practice, no source."""

from __future__ import annotations

import pytest

from checks.books import put, recipe, with_figures
from saponary.checks.superfat_high import check

BREAKER = recipe(put("superfat: 5 %", "superfat: 25 %"))
NEIGHBOUR = recipe(put("superfat: 5 %", "superfat: 20 %"))


@pytest.mark.parametrize(("superfat", "count"), [(0.2, 0), (0.2 + 1e-9, 1), (0.21, 1)])
def test_a_fifth_is_the_limit(superfat: float, count: int) -> None:
    assert len(list(check(with_figures(superfat=superfat)))) == count
