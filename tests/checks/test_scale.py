"""The rule `scale`: a scale too coarse for the batch."""

from __future__ import annotations

import pytest

from checks.books import put, recipe, with_figures
from saponary.checks.scale import check

BREAKER = recipe(put("total: 1000 g", "total: 60 g"))
TOLD = [
    (
        "recipes/tried.md:3:1",
        "warning",
        "weighed to 1 g the superfat is 9.4 %, not 5.0 %",
        "weigh 486 g of oils or more, or set a finer scale-step in book.yaml",
    ),
]
NEIGHBOUR = recipe(put("total: 1000 g", "total: 500 g"))
ALSO = [
    (
        recipe(put("sunflower-high-oleic: 15 %", "sunflower-high-oleic: 14.96 %\n    castor: 0.04 %")),
        [
            (
                "recipes/tried.md:9:5",
                "warning",
                "0.40 g of castor weighs nothing on a scale of 1 g",
                "leave it out, or weigh 25000 g of oils or more; or waive it with your reason: waive: [{rule: scale, about: castor, because: …}]",
            )
        ],
    ),
    (
        recipe(put("total: 1000 g", "total: 60 g"), book="scale-step: 2 g\n"),
        [
            (
                "recipes/tried.md:3:1",
                "warning",
                "weighed to 2 g the superfat is 12.5 %, not 5.0 %",
                "weigh 972 g of oils or more, or set a finer scale-step in book.yaml; or waive it with your reason: waive: [{rule: scale, about: superfat, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(
    ("weighed", "count"), [(0.0599, 0), (0.0601, 1), (0.0401, 0), (0.0399, 1), (-0.001, 0), (0.0, 1)]
)
def test_one_percentage_point_is_the_limit(weighed: float, count: int) -> None:
    """Below zero another rule speaks. The limit is this book's own."""
    found = list(check(with_figures(superfat=0.05, superfat_as_weighed=weighed)))
    assert [f.about for f in found] == ["superfat"] * count
