"""The cure shelf: what is curing on a day, and what is ready when."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from lot_books import FITTED, ON, X, built, having, parsed, recipe, site_of, words
from saponary.book.alkali_found import clean_test
from saponary.book.cure_days import cure_days
from saponary.book.curing import cures, ready_on
from saponary.build.proof import prove
from saponary.draw.charts.cure_span import Axis, Span, axis_for, days_axis, span
from saponary.lye.cure.fit import CureFit, Reason
from saponary.lye.cure.readings import still_to_lose, weight_at, weight_interval
from saponary.messages.message import Day
from saponary.messages.speaker import speaker
from saponary.quantity.rounding import show
from saponary.views.readiness import later
from support import BOOKS, prove_one

pytestmark = pytest.mark.slow

PAGE = "cure-shelf/index.html"


def sections(made: dict[str, bytes]) -> tuple[list[str], list[str]]:
    """The lots that are curing, and those that are ready."""
    page = parsed(made, PAGE)

    def told(name: str) -> list[str]:
        return [
            words(lot)
            for part in having(page, name)
            if part.tag == f"{X}section"
            for lot in (*having(part, "band"), *having(part, "on-shelf"))
        ]

    return told("curing"), told("done")


def test_the_day_moves_a_lot_from_curing_to_ready() -> None:
    text = recipe(f"lot: A-1\npoured: 2026-03-02\n{FITTED}")
    curing, ready = sections(built(text, date(2026, 4, 9)))
    assert len(curing) == 1 and not ready and "in 1 day" in curing[0]
    curing, ready = sections(built(text, date(2026, 4, 10)))
    assert not curing and len(ready) == 1 and "10 Apr 2026" in ready[0]
    made = built(text, date(2026, 3, 1))
    assert sections(made) == ([], [])
    told = words(parsed(made, PAGE))
    assert "Nothing is curing on this day." in told and "One lot was poured after this day." in told


def test_the_next_to_be_ready_comes_first_and_the_latest_ready_first() -> None:
    curing, ready = sections(
        built(
            recipe(
                "lot: slow\npoured: 2026-03-18",
                "lot: next\npoured: 2026-03-01",
                "lot: old\npoured: 2025-01-01",
                "lot: fresh\npoured: 2026-02-01",
            )
        )
    )
    assert [told.split()[0] for told in curing] == ["next", "slow"]
    assert [told.split()[0] for told in ready] == ["fresh", "old"]


def test_weighings_give_a_weight_with_its_reach_and_the_water_still_to_lose() -> None:
    proof_text = recipe(f"lot: A-1\npoured: 2026-03-02\n{FITTED}")
    ((told,), _) = sections(built(proof_text))
    batch = prove_one(proof_text).recipes[0].computed.batches[0].batch
    (bar,) = cures(batch)
    assert isinstance(bar.fit, CureFit)
    low, high = weight_interval(bar.fit, 18) or (0.0, 0.0)
    assert (
        f"Expected weight today (day 18) {show(weight_at(bar.fit, 18), 1)} g {show(low, 1)} to {show(high, 1)} g"
        in told
    )
    assert f"Expected weight on day 39, dry {show(weight_at(bar.fit, 39), 1)} g" in told
    assert f"Water still to lose {show(still_to_lose(bar.fit, 18), 1)} g" in told


@pytest.mark.parametrize(
    ("weighed", "reason"),
    [
        ("{0: 100 g, 7: 98 g}", Reason.TOO_FEW),
        ("{0: 100 g, 7: 100 g, 14: 100 g}", Reason.CONSTANT),
        ("{0: 100 g, 7: 101 g, 14: 102 g, 21: 104 g}", Reason.RISING),
        ("{0: 100 g, 7: 99 g, 14: 98 g, 21: 97 g}", Reason.NOT_SLOWING),
    ],
)
def test_no_curve_says_why(weighed: str, reason: Reason) -> None:
    ((told,), _) = sections(built(recipe(f"lot: A-1\npoured: 2026-03-02\nweighed: {weighed}")))
    assert reason.value in told
    assert "Cure over 30 March 2026, in 10 days" in told


def test_several_bars_are_told_apart_and_the_slowest_decides() -> None:
    bars = (
        "bars: {A: {0: 128.2 g, 7: 122.4 g, 14: 118.9 g, 28: 115.1 g, 42: 113.6 g}, B: {0: 100 g, 7: 99 g}}"
    )
    ((told,), _) = sections(built(recipe(f"lot: A-1\npoured: 2026-03-02\n{bars}")))
    assert "Expected weight today (day 18), bar A" in told
    assert f"Last weighed, bar B 99.0 g on day 7; no curve: {Reason.TOO_FEW.value}" in told
    assert "Cure over 10 April 2026" in told


def test_three_weighings_do_not_claim_to_know_how_surely() -> None:
    ((told,), _) = sections(
        built(recipe("lot: A-1\npoured: 2026-03-02\nweighed: {0: 93.2 g, 7: 89.0 g, 14: 86.2 g}"))
    )
    assert "no range: only three weighings" in told and "beyond the last weighing" in told


@pytest.mark.parametrize("name", sorted(BOOKS))
@pytest.mark.parametrize("on", [ON, date(2026, 11, 25), date(2020, 1, 1), date.max])
def test_every_lot_stands_where_its_days_put_it(name: str, on: date) -> None:
    proof = prove(BOOKS[name])
    made = site_of(proof, on)
    curing, ready = sections(made)
    due, back = {}, set()
    for one in proof.recipes:
        for record in one.computed.batches if one.status.name != "draft" else ():
            batch = record.batch
            if batch.poured <= on:
                cure = cure_days(one.computed.model, proof.book.settings)
                due[batch.lot] = later(batch.poured, ready_on(batch, cure)[0])
                back |= (
                    {batch.lot}
                    if batch.free_alkali and clean_test(batch, proof.book.settings) is None
                    else set()
                )
    assert sorted(told.split()[0] for told in curing) == sorted(
        lot for lot, day in due.items() if day > on and lot not in back
    )
    assert sorted(told.split()[0] for told in ready) == sorted(
        lot for lot, day in due.items() if day <= on or lot in back
    )
    for told in (*curing, *ready):
        lot = told.split()[0]
        assert ("Held back" in told) == (lot in back)
        spelt = [" ".join(speaker().say(Day(due[lot], style)).split()) for style in ("short", "long")]
        assert lot in back or any(day in told for day in spelt)
    assert site_of(proof, on)[PAGE] == made[PAGE]


def test_every_stretch_says_what_it_shows() -> None:
    page = parsed(built(recipe("lot: A-1\npoured: 2026-03-02", "lot: A-2\npoured: 2026-03-09")), PAGE)
    labels = [
        " ".join((e.get("aria-label") or "").split())
        for e in page.iter()
        if e.tag.endswith("svg") and e.get("role") == "img"
    ]
    assert "Lot A-1: poured 2 March 2026, cured 30 March 2026" in labels
    assert "Lot A-2: poured 9 March 2026, cured 6 April 2026" in labels
    ids = [e.get("id") for e in page.iter() if e.get("id")]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize(
    "spans",
    [[], [Span(0, 1)], [Span(-18, 22)], [Span(-400, 1), Span(0, 28)], [Span(0, 4000)], [Span(-9000, 90000)]],
)
def test_the_scale_holds_all_and_its_numbers_keep_apart(spans: list[Span]) -> None:
    axis = axis_for(spans)
    assert len(axis.marks) <= 10 and axis.first < 0 < axis.last
    for one in spans:
        assert axis.first <= one.poured <= one.ready <= axis.last
        assert axis.x(one.poured) <= axis.x(0) <= axis.x(one.ready)
    assert 'aria-label="Scale of days' in days_axis(axis, speaker())
    assert "nan" not in days_axis(axis, speaker())


def test_a_stretch_is_true_to_its_days() -> None:
    axis = Axis(-10, 10, 7)
    drawn = span(Span(-5, 10), axis, "words", "k")
    assert drawn == span(Span(-5, 10), axis, "words", "k")
    done, left = axis.x(0) - axis.x(-5), axis.x(10) - axis.x(0)
    assert left == pytest.approx(2 * done)
    assert f'width="{show(done, 0)}"' in drawn and f'width="{show(left, 0)}"' in drawn


def test_cautions_stand_at_the_foot() -> None:
    for path in (PAGE, "lots/index.html", "colours/index.html"):
        page = parsed(built(recipe("lot: A-1\npoured: 2026-03-02"), ON + timedelta(days=1)), path)
        assert "Lye into water, never water onto lye." in words(page), path
        here, folded = [e for e in page.iter(f"{X}a") if e.get("aria-current") == "page"]
        assert words(folded) == words(here)
        assert words(here) in ("Cure shelf", "Lots", "Colours")
