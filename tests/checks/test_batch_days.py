"""The rule `batch-days`."""

from __future__ import annotations

import pytest

from checks.books import batch, more, recipe, with_batch
from saponary.checks.batch_days import check

BREAKER = batch(", cut: 2026-03-01")
TOLD = [
    ("recipes/tried.md:11:69", "error", "lot A1 was cut before it was poured", "check the two dates"),
]
NEIGHBOUR = batch(", cut: 2026-03-02")
ALSO = [
    (
        recipe(
            more(
                "batches: [{lot: A1, poured: 2026-03-02, unmoulded: 2026-03-02, cut: 2026-03-01, free-alkali: {test: zap, result: none, on: 2026-03-01}}, {lot: A2, poured: 2026-03-02, unmoulded: 2026-03-01, cut: 2026-03-02, free-alkali: [{test: zap, result: none, on: 2026-03-02}, {test: zap, result: none, on: 2026-03-01}]}]\n"
            )
        ),
        [
            ("recipes/tried.md:11:69", "error", "lot A1 was cut before it was poured", "check the two dates"),
            (
                "recipes/tried.md:11:124",
                "error",
                "lot A1 was tested before it was poured",
                "check the two dates",
            ),
            (
                "recipes/tried.md:11:179",
                "error",
                "lot A2 was unmoulded before it was poured",
                "check the two dates",
            ),
            (
                "recipes/tried.md:11:295",
                "error",
                "lot A2 was tested before it was poured",
                "check the two dates",
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("tests", "early"),
    [
        ("{test: zap, result: none, on: 2026-03-01}", "2026-03-01"),
        (
            "[{test: zap, result: none, on: 2026-04-10}, {test: zap, result: none, on: 2026-03-01}]",
            "2026-03-01",
        ),
    ],
)
def test_a_test_before_the_pour_stands_at_its_day(tests: str, early: str) -> None:
    one = with_batch(f"free-alkali: {tests}")
    (found,) = check(one)
    line = one.file.text.split("\n")[found.place.line - 1]
    assert line[found.place.column - 1 :].startswith(early)
    assert found.message == "lot A1 was tested before it was poured"
