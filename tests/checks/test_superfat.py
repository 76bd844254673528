"""The rule `superfat`: not a trace of free lye, neither by the formula nor as weighed."""

from __future__ import annotations

import pytest

from checks.books import put, recipe, with_figures
from saponary.checks.superfat import check

BREAKER = recipe(put("superfat: 5 %", "superfat: -1 %"))
TOLD = [
    (
        "recipes/tried.md:9:11",
        "error",
        "the superfat is -1.0 %: free lye stays in the bar",
        "raise the superfat to 3 % or more",
    ),
]
NEIGHBOUR = recipe(put("superfat: 5 %", "superfat: 4 %"))
ALSO = [
    (
        recipe(
            put("superfat: 5 %", "superfat: 0.5 %", put("total: 1000 g", "total: 100 g")),
            book="scale-step: 5 g\n",
        ),
        [
            (
                "recipes/tried.md:9:11",
                "error",
                "as weighed on this scale the superfat is -1.9 %",
                "make a larger batch, raise the superfat, or use a finer scale",
            )
        ],
    ),
]


@pytest.mark.parametrize(
    ("nominal", "weighed", "told"),
    [
        (0.0, 0.0, []),
        (0.05, 1e-9, []),
        (0.05, -1e-9, ["as weighed on this scale the superfat is 0.0 %"]),
        (0.05, -0.004, ["as weighed on this scale the superfat is -0.4 %"]),
        (-1e-9, 0.05, ["the superfat is 0.0 %: free lye stays in the bar"]),
        (-0.01, -0.02, ["the superfat is -1.0 %: free lye stays in the bar"]),
    ],
)
def test_zero_is_the_limit_on_both_sides(nominal: float, weighed: float, told: list[str]) -> None:
    """Below zero alkali is left over: that follows from what superfat means."""
    found = list(check(with_figures(superfat=nominal, superfat_as_weighed=weighed)))
    assert [f.message for f in found] == told
    assert all(f.severity == "error" and str(f.place) == "recipes/tried.md:9:11" for f in found)
