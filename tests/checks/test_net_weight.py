"""The rule `net-weight`: a label promises no more than the lightest cured bar weighs."""

from __future__ import annotations

import pytest

from checks.books import batch, more, recipe, with_batch
from saponary.checks.net_weight import check
from support import PLAIN

BREAKER = recipe(more("label: {net-weight: 100 g}\n"))
TOLD = [
    (
        "recipes/tried.md:11:21",
        "warning",
        "a net weight of 100 g has no weighed bar of this formula to support it",
        "weigh a marked bar of a batch poured to it until day 28 or later",
    ),
]
NEIGHBOUR = batch(", weighed: {0: 120 g, 42: 101 g}", more("label: {net-weight: 100 g}\n"))
ALSO = [
    (
        recipe(
            more(
                "label: {net-weight: 100 g}\nbatches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, weighed: {0: 120 g, 28: 99 g}}, {lot: A2, poured: 2026-03-02, formula: '123456', weighed: {0: 120 g, 28: 90 g}}, {lot: A3, poured: 2026-03-02, formula: FINGERPRINT, weighed: {0: 120 g, 27: 95 g}}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:21",
                "error",
                "the label states 100 g; a bar of lot A1 comes to 99.0 g",
                "state what the lightest cured bar weighs, or less; or waive it with your reason: waive: [{rule: net-weight, because: …}]",
            )
        ],
    ),
    (
        recipe(more("label: {net-weight: 100 g}\n")),
        [
            (
                "recipes/tried.md:11:21",
                "warning",
                "a net weight of 100 g has no weighed bar of this formula to support it",
                "weigh a marked bar of a batch poured to it until day 28 or later; or waive it with your reason: waive: [{rule: net-weight, because: …}]",
            )
        ],
    ),
]


def labelled(weight: str) -> str:
    return PLAIN.replace("signed:\n", f"label: {{net-weight: {weight}}}\nsigned:\n")


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ("100 g", []),
        ("99.9 g", []),
        ("100.1 g", ["the label states 100.1 g; a bar of lot A1 comes to 100.0 g"]),
    ],
)
def test_the_cured_bar_is_the_limit(stated: str, told: list[str]) -> None:
    """Weighed on the 28th day, the day from which this book's bars count as cured."""
    found = list(check(with_batch("weighed: {0: 120 g, 42: 100 g}", labelled(stated))))
    assert [(f.severity, f.message) for f in found] == [("error", message) for message in told]


@pytest.mark.parametrize(("day", "count"), [(27, 1), (28, 0)])
def test_a_bar_counts_from_the_day_of_cure(day: int, count: int) -> None:
    one = with_batch(f"weighed: {{0: 120 g, {day}: 110 g}}", labelled("100 g"))
    assert one.settings.cure == 28
    found = list(check(one))
    assert [f.severity for f in found] == ["warning"] * count


def test_the_lightest_of_several_bars_counts() -> None:
    bars = "bars: {a: {0: 120 g, 42: 105 g}, b: {0: 120 g, 42: 99 g}}"
    (found,) = check(with_batch(bars, labelled("100 g")))
    assert "comes to 99.0 g" in found.message
