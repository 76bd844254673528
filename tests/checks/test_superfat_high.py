"""The rule `superfat-high`. Its limit: common practice, no source."""

from __future__ import annotations

import pytest

from checks.books import put, recipe, with_figures
from saponary.checks.superfat_high import check

BREAKER = recipe(put("superfat: 5 %", "superfat: 25 %"))
TOLD = [
    (
        "recipes/tried.md:9:11",
        "warning",
        "a superfat of 25.0 % is far more than usual",
        "usual is 3 to 8 %, and up to 20 % for coconut oil alone",
    ),
]
NEIGHBOUR = recipe(put("superfat: 5 %", "superfat: 20 %"))
ALSO = [
    (
        recipe(put("superfat: 5 %", "superfat: 20.1 %")),
        [
            (
                "recipes/tried.md:9:11",
                "warning",
                "a superfat of 20.1 % is far more than usual",
                "usual is 3 to 8 %, and up to 20 % for coconut oil alone; or waive it with your reason: waive: [{rule: superfat-high, because: …}]",
            )
        ],
    ),
    (recipe(put("superfat: 5 %", "superfat: 20 %")), []),
]


@pytest.mark.parametrize(("superfat", "count"), [(0.2, 0), (0.2 + 1e-9, 1), (0.21, 1)])
def test_a_fifth_is_the_limit(superfat: float, count: int) -> None:
    assert len(list(check(with_figures(superfat=superfat)))) == count
