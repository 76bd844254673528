"""The calendar of ready days, read back by another program's reader and by hand."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, datetime

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lot_books import CLEAN, FITTED, ON, built, recipe, site_of
from saponary.book.alkali_found import clean_test
from saponary.book.cure_days import cure_days
from saponary.book.curing import ready_on
from saponary.build.proof import prove
from saponary.outputs.pages.calendar import folded, text
from saponary.views.readiness import later
from support import BOOKS, prove_one

pytestmark = pytest.mark.slow

PATH = "ready.ics"
ODD = "Lime; rock, back\\slash: Ä–⅓–🧼"


def events(data: bytes) -> list[icalendar.Event]:
    return list(icalendar.Calendar.from_ical(data).walk("VEVENT"))


def test_one_lot_is_one_whole_day() -> None:
    made = built(recipe(f"lot: QS-014\npoured: 2026-03-02\n{FITTED}\n{CLEAN}", title="Quarry Strata"))
    calendar = icalendar.Calendar.from_ical(made[PATH])
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"]
    (event,) = calendar.walk("VEVENT")
    assert event["SUMMARY"] == "Ready: Quarry Strata, lot QS-014"
    assert event["DTSTART"].dt == date(2026, 4, 10) and not isinstance(event["DTSTART"].dt, datetime)
    assert event["TRANSP"] == "TRANSPARENT"
    assert event["DTSTAMP"].dt.isoformat() == "2026-03-20T00:00:00+00:00"
    assert "by its weighings" in event["DESCRIPTION"] and "from day 39" in event["DESCRIPTION"]
    assert "URL" not in event


def test_without_weighings_it_says_that_the_days_alone_are_known() -> None:
    (event,) = events(built(recipe(f"lot: A\npoured: 2026-03-02\n{CLEAN}"))[PATH])
    assert event["DTSTART"].dt == date(2026, 3, 30)
    assert "by the book's 28 days of cure; no bar of it was weighed" in event["DESCRIPTION"]


@pytest.mark.parametrize("on", [ON, date(2026, 11, 25), date(2030, 1, 1)])
def test_what_is_curing_is_there_or_else_what_was_last(on: date) -> None:
    proof = prove(BOOKS["demo"])
    found = events(site_of(proof, on)[PATH])
    every = sorted(
        (
            later(r.batch.poured, ready_on(r.batch, cure_days(one.computed.model, proof.book.settings))[0]),
            r.batch.lot,
        )
        for one in proof.recipes
        for r in one.computed.batches
        if not r.batch.free_alkali or clean_test(r.batch, proof.book.settings) is not None
    )
    wanted = [pair for pair in every if pair[0] > on] or every[-1:]
    assert sorted((e["DTSTART"].dt, str(e["SUMMARY"]).rpartition("lot ")[2]) for e in found) == wanted
    assert len({str(e["UID"]) for e in found}) == len(found)


def test_a_lot_that_is_not_tested_is_not_called_ready() -> None:
    (event,) = events(built(recipe("lot: A\npoured: 2026-03-02"))[PATH])
    assert (
        event["SUMMARY"] == "Cure over: Plain Bar, lot A" and "ready" not in event["DESCRIPTION"].casefold()
    )


def test_the_id_of_an_event_stays_while_all_else_changes() -> None:
    first, second, other = (
        events(built(text, on)[PATH])[0]["UID"]
        for text, on in (
            (recipe(f"lot: A\npoured: 2026-03-02\n{CLEAN}"), ON),
            (recipe(f"lot: A\npoured: 2026-03-04\n{FITTED}\n{CLEAN}", title="Renamed"), date(2026, 5, 1)),
            (recipe(f"lot: B\npoured: 2026-03-02\n{CLEAN}"), ON),
        )
    )
    assert first == second != other


def test_signs_with_a_meaning_are_escaped_and_come_back() -> None:
    (event,) = events(built(recipe(f"lot: '{ODD}'\npoured: 2026-03-02\n{CLEAN}"))[PATH])
    assert event["SUMMARY"] == f"Ready: Plain Bar, lot {ODD}"


def test_a_book_with_an_address_links_to_the_lot() -> None:
    proof = prove_one(recipe(f"lot: A\npoured: 2026-03-02\n{CLEAN}"))
    settings = proof.book.settings.model_copy(update={"base_url": "https://soap.example/book/"})
    (event,) = events(site_of(replace(proof, book=replace(proof.book, settings=settings)))[PATH])
    assert event["URL"] == "https://soap.example/book/lots/tried/a/index.html"


def check_lines(data: bytes) -> None:
    """By hand, after RFC 5545, 3.1: ends, lengths, and no cut inside a character."""
    assert data.endswith(b"\r\n") and not re.search(rb"(?<!\r)\n|\r(?!\n)", data)
    for line in data.split(b"\r\n")[:-1]:
        assert 0 < len(line) <= 75
        line.decode("utf-8")


def test_lines_end_and_fold_as_they_should() -> None:
    made = built(recipe(f"lot: '{(ODD + ' ') * 8}'\npoured: 2026-03-02\n{FITTED}\n{CLEAN}"))
    check_lines(made[PATH])
    lines = made[PATH].decode().split("\r\n")
    assert any(line.startswith(" ") for line in lines)
    unfolded = made[PATH].decode().replace("\r\n ", "").split("\r\n")
    assert all(re.match(r"[A-Z-]+[:;]", line) for line in unfolded if line)


@given(st.text(max_size=400))
def test_folding_gives_back_what_it_took(words: str) -> None:
    line = f"SUMMARY:{text(words)}"
    data = folded(line)
    check_lines(data)
    assert data.decode().replace("\r\n ", "") == line + "\r\n"


@given(st.text(alphabet=st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), max_size=80))
def test_text_comes_back_as_it_was(words: str) -> None:
    data = b"".join(
        folded(line)
        for line in (
            "BEGIN:VCALENDAR",
            "VERSION:2.0",
            "PRODID:x",
            "BEGIN:VEVENT",
            "UID:1",
            "DTSTAMP:20260101T000000Z",
            f"SUMMARY:{text(words)}",
            "END:VEVENT",
            "END:VCALENDAR",
        )
    )
    (event,) = events(data)
    assert str(event["SUMMARY"]) == words


def test_control_characters_do_not_reach_the_file() -> None:
    assert text("a\x00b\x1b\x7f\x85c\td\r\ne") == "ab\\nc\td\\ne"


def test_same_input_same_bytes() -> None:
    written = recipe(f"lot: A\npoured: 2026-03-02\n{FITTED}\n{CLEAN}")
    assert built(written)[PATH] == built(written)[PATH]
