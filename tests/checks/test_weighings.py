"""The rule `weighings`: how much a bar may gain or lose. Limits: common practice, no source."""

from __future__ import annotations

import pytest

from checks.books import batch, more, recipe, with_batch
from saponary.checks.weighings import check

BREAKER = batch(", weighed: {0: 1340 g, 7: 126 g}")
TOLD = [
    (
        "recipes/tried.md:11:88",
        "warning",
        "lot A1: on day 7 the bar weighs 126.0 g, 91 % less than on day 0",
        "look for a typing mistake, another bar or another scale",
    ),
]
NEIGHBOUR = batch(", weighed: {0: 134 g, 7: 126 g}")
ALSO = [
    (
        recipe(
            more(
                "batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, bars: {left: {0: 100 g, 7: 110 g, 14: 60 g}, right: {0: 100 g, 7: 95 g}}}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:91",
                "warning",
                "lot A1: on day 7 the bar weighs 110.0 g, 10 % more than on day 0",
                "look for a typing mistake, another bar or another scale; or waive it with your reason: waive: [{rule: weighings, about: A1 left day 7, because: …}]",
            ),
            (
                "recipes/tried.md:11:102",
                "warning",
                "lot A1: on day 14 the bar weighs 60.0 g, 40 % less than on day 0",
                "look for a typing mistake, another bar or another scale; or waive it with your reason: waive: [{rule: weighings, about: A1 left day 14, because: …}]",
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("later", "told"),
    [
        ("102 g", None),
        ("102.1 g", "2 % more than on day 0"),
        ("103 g", "3 % more than on day 0"),
        ("65 g", None),
        ("64.9 g", "35 % less than on day 0"),
        ("98 g", None),
    ],
)
def test_two_hundredths_more_and_thirty_five_less_are_the_limits(later: str, told: str | None) -> None:
    found = list(check(with_batch(f"weighed: {{0: 100 g, 7: {later}}}")))
    assert len(found) == (told is not None)
    assert (
        told is None
        or f"on day 7 the bar weighs {later.split()[0].rstrip('0').rstrip('.')}" in found[0].message
    )
    assert told is None or told in found[0].message


def test_what_stands_off_the_curve_is_told_and_named() -> None:
    days = "0: 140 g, 7: 131 g, 14: 127 g, 21: 138 g, 28: 123 g, 35: 122 g, 42: 121.5 g"
    (found,) = check(with_batch(f"weighed: {{{days}}}"))
    assert "138.0 g on day 21 does not go with the other weighings" in found.message
    assert (found.severity, found.about) == ("warning", "A1 day 21")
