"""The rule `free-alkali`: a trace is not none, and the last test counts."""

from __future__ import annotations

import pytest

from checks.books import batch, more, recipe, with_batch
from saponary.checks.free_alkali import check

BREAKER = batch(", free-alkali: {test: zap, result: present, on: 2026-04-10}")
TOLD = [
    (
        "recipes/tried.md:11:77",
        "warning",
        "lot A1 held free alkali on 2026-04-10",
        "hold the lot back, test it again after more cure, and record that test",
    ),
]
NEIGHBOUR = batch(", free-alkali: {test: zap, result: none, on: 2026-04-10}")
ALSO = [
    (
        recipe(
            more(
                "batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, free-alkali: {test: zap, result: none, on: 2026-04-10}}, {lot: A2, poured: 2026-03-02, formula: FINGERPRINT, free-alkali: {test: zap, result: trace, on: 2026-04-10}}, {lot: A3, poured: 2026-03-02, formula: FINGERPRINT, free-alkali: [{test: zap, result: present, on: 2026-04-10}, {test: zap, result: none, on: 2026-04-20}]}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:187",
                "warning",
                "lot A2 held a trace of free alkali on 2026-04-10",
                "hold the lot back, test it again after more cure, and record that test; or waive it with your reason: waive: [{rule: free-alkali, about: A2, because: …}]",
            )
        ],
    ),
]


@pytest.mark.parametrize(
    ("result", "told"),
    [("none", []), ("trace", ["a trace of free alkali"]), ("present", ["free alkali"])],
)
def test_any_alkali_holds_a_lot_back(result: str, told: list[str]) -> None:
    found = list(check(with_batch(f"free-alkali: {{test: zap, result: {result}, on: 2026-04-10}}")))
    assert [f.message for f in found] == [f"lot A1 held {what} on 2026-04-10" for what in told]


def test_the_latest_test_counts() -> None:
    tests = "{test: zap, result: %s, on: 2026-04-10}, {test: zap, result: %s, on: 2026-05-10}"
    assert list(check(with_batch(f"free-alkali: [{tests % ('present', 'none')}]"))) == []
    assert len(list(check(with_batch(f"free-alkali: [{tests % ('none', 'trace')}]")))) == 1


def test_a_lot_never_tested_is_not_found_here() -> None:
    assert list(check(with_batch("cut: 2026-03-04"))) == []
