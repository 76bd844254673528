"""What a customer may be shown: common practice of the trade, no source, but for the test for free alkali."""

from __future__ import annotations

from datetime import date

import pytest

from lot_books import mark, recipe
from saponary.book.on_sale import OnSale, on_sale
from support import prove_one

TESTED = "free-alkali: {test: phenolphthalein, result: none, on: 2026-02-20}"


def sold(*lots: str, on: date = date(2026, 3, 20)) -> OnSale:
    return on_sale(prove_one(recipe(*lots)).recipes[0].computed, on)


def lot(name: str, *more: str, poured: str = "2026-01-10", formula: str | None = None) -> str:
    return "\n".join((f"lot: {name}", f"poured: {poured}", f"formula: {formula or mark()}", *more))


def test_a_cured_lot_found_free_of_alkali_is_for_sale() -> None:
    found = sold(lot("A", TESTED))
    assert [one.lot for one in found.lots] == ["A"]
    assert found.lots[0].ready == date(2026, 2, 7) and found.lots[0].tested == date(2026, 2, 20)


@pytest.mark.parametrize(
    "record",
    [
        lot("A"),
        lot("A", TESTED.replace("none", "trace")),
        lot("A", TESTED, "faults: [rancid-spots]"),
        lot("A", TESTED, formula="0123456789ab"),
        lot("A", TESTED, poured="2026-03-01"),
        lot("A", TESTED, poured="2026-04-01"),
    ],
    ids=["not tested", "alkali found", "a fault", "another formula", "still curing", "not yet poured"],
)
def test_no_other_lot_is(record: str) -> None:
    assert sold(record).lots == ()


def test_the_newest_lot_comes_first_and_the_next_is_told() -> None:
    found = sold(
        lot("A", TESTED, poured="2025-11-01"),
        lot("B", TESTED),
        lot("C", poured="2026-03-10"),
        lot("D", poured="2026-03-05"),
        lot("E", TESTED.replace("none", "present"), poured="2026-03-01"),
    )
    assert [one.lot for one in found.lots] == ["B", "A"]
    assert found.due == date(2026, 4, 2)
