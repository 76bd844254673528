"""Until when a lot is good: the soonest of its oils' dates and the book's months, by a calendar library's sums."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saponary.book.best_before import BestBefore, best_before_of, months_later
from saponary.build.proof import prove
from saponary.label.label_text import label_text
from saponary.label.lists import bar
from support import PLAIN, write_book

PANTRY = """\
oils:
  olive: {lots: {O1: 2027-05-01, O2: 2026-12-24}}
  coconut: {lots: {C1: 2028-01-01}}
  sunflower-high-oleic: {lots: {S1: 2027-02-01}}
infusions:
  nettle-olive: {botanical: nettle-leaf, carrier: olive}
"""
EVERY = "{olive: O1, coconut: C1, sunflower-high-oleic: S1}"


@pytest.mark.parametrize(
    ("day", "months", "later"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2028, 1, 31), 1, date(2028, 2, 29)),
        (date(2026, 11, 30), 3, date(2027, 2, 28)),
        (date(2026, 3, 2), 24, date(2028, 3, 2)),
        (date(2026, 12, 1), 1, date(2027, 1, 1)),
    ],
)
def test_months(day: date, months: int, later: date) -> None:
    """By the calendar on the wall."""
    assert months_later(day, months) == later


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.integers(1, 60))
def test_months_count_as_months(day: date, months: int) -> None:
    later = months_later(day, months)
    assert (later.year - day.year) * 12 + later.month - day.month == months
    assert later.day <= day.day


def good(tmp_path: Path, lots: str, book: str = "", recipe: str = PLAIN) -> BestBefore | None:
    batch = f"batches: [{{lot: A1, poured: 2026-03-02, oil-lots: {lots}}}]\n"
    text = recipe.replace("signed:\n", batch + "signed:\n")
    root = write_book(tmp_path, {"recipes/a.md": text, "pantry.yaml": PANTRY, "book.yaml": book})
    return best_before_of(prove(root).recipes[0].computed, "A1")


@pytest.mark.parametrize(
    ("lots", "book", "day", "by", "undated"),
    [
        (EVERY, "", date(2027, 2, 1), "S1", ()),
        (EVERY.replace("O1", "O2"), "", date(2026, 12, 24), "O2", ()),
        (EVERY, "durability-months: 6", date(2026, 9, 2), None, ()),
        (EVERY, "durability-months: 24", date(2027, 2, 1), "S1", ()),
        ("{olive: O1}", "", date(2027, 5, 1), "O1", ("coconut", "sunflower-high-oleic")),
        ("{}", "durability-months: 12", date(2027, 3, 2), None, ("olive", "coconut", "sunflower-high-oleic")),
    ],
)
def test_the_soonest_rules(
    lots: str, book: str, day: date, by: str | None, undated: tuple[str, ...], tmp_path: Path
) -> None:
    found = good(tmp_path, lots, book)
    assert found is not None
    assert (found.day, found.by.lot if found.by else None, found.undated) == (day, by, undated)
    assert found.sure == (not undated)


def test_nothing_is_known_where_nothing_is_said(tmp_path: Path) -> None:
    assert good(tmp_path, "{}") is None


def test_an_infused_oil_is_its_carrier(tmp_path: Path) -> None:
    infused = PLAIN.replace("    olive: 60 %\n", "    nettle-olive: 60 %\n")
    found = good(tmp_path, EVERY.replace("olive:", "nettle-olive:", 1), recipe=infused)
    assert found is not None and found.sure


@pytest.mark.parametrize(
    ("lots", "label", "told", "blank"),
    [
        (EVERY, "lot: A1", True, False),
        ("{olive: O1}", "lot: A1", False, True),
        (EVERY, "net-weight: 100 g", False, True),
    ],
)
def test_a_label_of_a_lot_carries_the_day_where_it_is_known(
    lots: str, label: str, told: bool, blank: bool, tmp_path: Path
) -> None:
    """Where it is not, the label has the line to be written on, as the law's wording has it."""
    batch = f"batches: [{{lot: A1, poured: 2026-03-02, oil-lots: {lots}}}]\nlabel: {{net-weight: 100 g, {label}}}\n"
    batch = batch.replace("net-weight: 100 g, net-weight: 100 g", "net-weight: 100 g")
    text = PLAIN.replace("signed:\n", batch + "signed:\n")
    files = {"recipes/a.md": text, "pantry.yaml": PANTRY, "book.yaml": "durability-months: 24\n"}
    computed = prove(write_book(tmp_path, files)).recipes[0].computed
    said = label_text(computed, bar(computed), computed.settings, "eu")
    assert said is not None
    assert ("Best used before the end of 1 February 2027." in said.facts.replace("\xa0", " ")) == told
    assert (said.before == "Best used before the end of") == blank
    assert said.lot == ("Lot A1" if label == "lot: A1" else "Lot")
