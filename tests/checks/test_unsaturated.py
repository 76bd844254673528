"""The rule `unsaturated`. Its limit: common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from checks.books import good, put, recipe, with_figures
from saponary.checks.unsaturated import check

BREAKER = recipe(put("sunflower-high-oleic: 15 %", "sunflower: 15 %"))
TOLD = [
    (
        "recipes/tried.md:5:3",
        "warning",
        "15.8 % of the fatty acids are polyunsaturated",
        "at most 15 % keeps rancid spots away longer",
    ),
]
NEIGHBOUR = recipe(put("sunflower-high-oleic: 15 %", "sunflower-high-oleic: 10 %\n    sunflower: 5 %"))
ALSO = [
    (
        recipe(put("olive: 60 %", "sunflower: 60 %")),
        [
            (
                "recipes/tried.md:5:3",
                "warning",
                "39.0 % of the fatty acids are polyunsaturated",
                "at most 15 % keeps rancid spots away longer; or waive it with your reason: waive: [{rule: unsaturated, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(("share", "count"), [(0.15, 0), (0.1501, 1), (0.14, 0)])
def test_fifteen_hundredths_are_the_limit(share: float, count: int) -> None:
    chemistry = good().figures.chemistry
    groups = {**chemistry.groups, "polyunsaturated": share}
    assert len(list(check(with_figures(chemistry=replace(chemistry, groups=groups))))) == count
