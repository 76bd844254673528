"""What a class's edition shows: the student's size throughout, small weights for all at once, blanks left blank.

The weights expected here are the engine's own at that size; that a part too small for a scale is weighed for
several at once is common practice, no source.
"""

from __future__ import annotations

import json
import re
from datetime import datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.etree import ElementTree

import icalendar
import pytest

from lot_books import X, having, parsed, site_of, words
from saponary.build.proof import Proof, prove
from saponary.lye.figures import weigh
from saponary.quantity.rounding import show
from support import PLAIN, some, write_book

CLASS = """\
---
title: A day at the bench
summary: A bar of your own, from the oils up.
date: 2026-12-05
place: A barn
students: 5
emergency: Ring 000.
per-bench: 2
oils: 420 g
recipes: [plain]
timetable: [{at: "09:30", what: Goggles}]
editions: [class]
---
The oils come to {oils}. SUM
"""
SIZE = 0.42
"""Of the recipe, which has 1000 g of oils."""
SUMS = {"": (), "{blank lye}": ("sodium-hydroxide",), "{blank oil coconut}": ("oil coconut",)}


@cache
def proved(asked: str) -> Proof:
    recipe = PLAIN.replace("signed:", "additions: [{what: kaolin, amount: 2 g, at: trace}]\nsigned:")
    files = {"recipes/plain.md": recipe, "classes/day.md": CLASS.replace("SUM", asked)}
    with TemporaryDirectory() as folder:
        return prove(write_book(Path(folder), files))


@cache
def made(asked: str, edition: str = "class") -> dict[str, bytes]:
    return site_of(proved(asked), edition=edition)


def main_of(asked: str, path: str, edition: str = "class") -> ElementTree.Element:
    (found,) = parsed(made(asked, edition), path).iter(f"{X}main")
    return found


def grams(asked: str) -> dict[str, str]:
    """What each student weighs by the engine, on a scale that shows whole grams."""
    formula = proved(asked).recipes[0].computed.resolved.formula
    figures = weigh(formula.scaled(SIZE))
    found = {f"oil {oil.id}": oil.grams for oil in formula.scaled(SIZE).oils}
    found["sodium-hydroxide"] = figures.weights.sodium_hydroxide
    found["plain-water"] = figures.water.plain
    return {name: show(round(weight), 0) for name, weight in found.items()}


@pytest.mark.parametrize("asked", sorted(SUMS))
@pytest.mark.parametrize(
    "page", ["index.html", "recipes/plain/index.html", "recipes/plain/at-the-bench.html"]
)
def test_every_weight_is_at_the_students_size_and_what_is_to_be_worked_out_is_blank(
    asked: str, page: str
) -> None:
    main = main_of(asked, page)
    told = words(main)
    for name, weight in some(grams(asked).items()):
        shown = re.search(rf"(?<![\d.]){weight}(?![\d.])", told) is not None
        assert shown == (name not in SUMS[asked]), (name, weight)
    whole = proved(asked).recipes[0].computed.figures.weights.sodium_hydroxide
    assert show(whole, 1) not in told and show(round(whole), 0) not in re.findall(r"[\d.]+", told)
    assert len(having(main, "gap")) >= len(SUMS[asked])


@pytest.mark.parametrize("asked", [asked for asked in SUMS if asked])
def test_no_page_gives_a_blank_away(asked: str) -> None:
    (hidden,) = SUMS[asked]
    figures = proved(asked).recipes[0].computed
    whole = figures.figures.weights.sodium_hydroxide
    if hidden.startswith("oil "):
        whole = next(o.grams for o in figures.resolved.formula.oils if o.id == hidden.removeprefix("oil "))
    for path, data in some(made(asked).items()):
        if path.endswith(".html"):
            told = re.findall(
                r"\d+(?:\.\d+)?",
                re.sub(r"<(style|svg)\b.*?</\1>|<[^>]*>", " ", data.decode(), flags=re.DOTALL),
            )
            for grams_of in (whole, whole * SIZE, whole * SIZE * 2):
                assert show(grams_of, 1) not in told, (path, grams_of)
    (one,) = json.loads(made(asked)["figures.json"])["recipes"]
    assert one.keys() == {"slug", "title", "status", "address"}
    assert "figures" not in json.loads(made(asked)[one["address"]])
    assert "figures" in json.loads(made("")[one["address"]])


def test_too_little_for_the_scale_is_weighed_for_all() -> None:
    (row,) = having(main_of("", "index.html"), "for-you")
    assert words(row) == "kaolin weighed for you"


def test_the_class_opens_with_its_day_and_leads_to_its_work() -> None:
    main = main_of("", "index.html")
    assert [words(e) for e in main.iter(f"{X}h1")] == ["A day at the bench"]
    assert [words(e) for e in having(main, "summary")] == ["A bar of your own, from the oils up."]
    (facts,) = having(main, "told")
    assert "Saturday 5 December 2026, from 09:30" in words(facts) and "A barn" in words(facts)
    ways = [a.get("href") for a in facts.iter(f"{X}a")]
    assert ways == ["classes/day.ics", "#recipe-1", "recipes/plain/index.html#work"]
    heads = [words(e) for e in main_of("", "recipes/plain/index.html").iter(f"{X}h2")]
    assert heads.index("Work order") < heads.index("How it looks")


def test_without_handouts_there_is_no_place_for_them_and_one_emergency_line() -> None:
    heads = [words(e) for e in main_of("", "index.html").iter(f"{X}h2")]
    assert "The day" in heads and "Handouts to print" not in heads
    told = [words(e) for e in having(parsed(made(""), "index.html"), "emergency")]
    assert told == ["Ring 000."]


def test_the_makers_own_edition_stays_at_the_recipes_size() -> None:
    told = words(main_of("{blank lye}", "recipes/plain/index.html", "maker"))
    whole = proved("").recipes[0].computed.figures.weights.sodium_hydroxide
    assert show(whole, 1) in told and "to work out" not in told


def test_the_day_may_be_kept_in_a_calendar() -> None:
    """Read back by another program's reader (icalendar)."""
    (event,) = icalendar.Calendar.from_ical(made("")["classes/day.ics"]).walk("VEVENT")
    assert event["SUMMARY"] == "A day at the bench" and event["LOCATION"] == "A barn"
    assert event["DTSTART"].dt == datetime(2026, 12, 5, 9, 30)
    assert event["DESCRIPTION"] == "A bar of your own, from the oils up.\n09:30 Goggles"
    page = parsed(made(""), "index.html")
    assert {e.get("href") for e in page.iter() if e.get("type") == "text/calendar"} == {"classes/day.ics"}
