"""Volumes of moulds against closed forms and against slices summed, and bars that can be cut."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.lye.mould import Mould, bars, fill_height, filled_by, millilitres

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=50)

lengths = st.floats(20.0, 600.0)


@pytest.mark.parametrize(
    ("mould", "volume"),
    [
        (Mould("loaf", 250, 90, 70), 1575.00),
        (Mould("loaf", 250, 90, 70, top_length=260, top_width=100), 1696.33),
        (Mould("cylinder", length=250, diameter=70), 962.11),
        (Mould("loaf", 250, 90, 70, liner=2), 1438.61),
        (Mould("cavities", cavity_ml=90.0, count=6), 540.00),
    ],
)
def test_volumes_worked_by_hand(mould: Mould, volume: float) -> None:
    """By plain arithmetic: L·W·H, the prismatoid, pi·r²·L, and a liner of 2 mm on both sides, both
    ends and the bottom."""
    assert millilitres(mould) == pytest.approx(volume, abs=0.005)


def sliced(mould: Mould, slices: int = 400) -> float:
    """Volume by the middle of each slice: an area that is quadratic in height is off by 1/slices² at most."""
    total = 0.0
    top_length = mould.top_length or mould.length
    top_width = mould.top_width or mould.width
    for i in range(slices):
        z = (i + 0.5) / slices
        total += (mould.length + (top_length - mould.length) * z) * (
            mould.width + (top_width - mould.width) * z
        )
    return total * mould.height / slices / 1000


@REPEATABLE
@given(lengths, lengths, lengths, st.floats(0.5, 2.0), st.floats(0.5, 2.0))
def test_sloping_sides_against_slices(length: float, width: float, height: float, a: float, b: float) -> None:
    mould = Mould("loaf", length, width, height, top_length=length * a, top_width=width * b)
    assert millilitres(mould) == pytest.approx(sliced(mould), rel=1e-5)


@REPEATABLE
@given(lengths, lengths, lengths, st.integers(1, 12))
def test_straight_sides(length: float, width: float, height: float, count: int) -> None:
    box = length * width * height / 1000
    assert millilitres(Mould("loaf", length, width, height)) == pytest.approx(box)
    assert millilitres(Mould("slab", length, width, height, count=count)) == pytest.approx(box * count)
    assert millilitres(Mould("loaf", length, width, height, length, width)) == pytest.approx(box)


@REPEATABLE
@given(lengths, lengths, lengths, st.floats(0.0, 9.0))
def test_a_liner_takes_its_thickness_from_every_lined_face(
    length: float, width: float, height: float, liner: float
) -> None:
    expected = (length - 2 * liner) * (width - 2 * liner) * (height - liner) / 1000
    assert millilitres(Mould("loaf", length, width, height, liner=liner)) == pytest.approx(expected)
    round_one = pi * (width / 2 - liner) ** 2 * (length - liner) / 1000
    assert millilitres(Mould("cylinder", length=length, diameter=width, liner=liner)) == pytest.approx(
        round_one
    )


def test_a_cylinder_against_slices() -> None:
    mould = Mould("cylinder", length=250, diameter=70, count=2)
    wide, step = 70 / 2, 70 / 20000
    area = sum(2 * (wide**2 - (-wide + (i + 0.5) * step) ** 2) ** 0.5 * step for i in range(20000))
    assert millilitres(mould) == pytest.approx(2 * area * 250 / 1000, rel=1e-6)


@pytest.mark.parametrize(
    "mould",
    [
        Mould("cylinder", length=200, diameter=40, liner=25),
        Mould("loaf", 10, 100, 5, liner=6),
    ],
    ids=["cylinder", "loaf"],
)
def test_a_liner_thicker_than_the_mould_leaves_no_room(mould: Mould) -> None:
    """Two measures below nothing multiply to something: no volume may come of that."""
    assert millilitres(mould) <= 0


def test_bars_by_thickness() -> None:
    """floor(length / thickness), and with a kerf floor((length + kerf)/(thickness + kerf))."""
    loaf = Mould("loaf", 250, 90, 70)
    assert bars(loaf, 25) == 10
    assert bars(loaf, 25.01) == 9
    assert bars(loaf, 24) == 10
    assert bars(loaf, 23, kerf=2) == 10
    assert bars(loaf, 300) == 0
    assert bars(loaf, 0) == 0
    assert bars(Mould("loaf", 0.3, 90, 70), 0.1) == 3
    assert bars(Mould("loaf", 250, 90, 70, count=3), 25) == 30
    assert bars(Mould("cavities", cavity_ml=90, count=6), 25) == 6


@REPEATABLE
@given(lengths, st.floats(5.0, 60.0), st.floats(0.0, 3.0))
def test_bars_and_cuts_fit_into_the_loaf_and_one_more_does_not(
    length: float, each: float, kerf: float
) -> None:
    count = bars(Mould("loaf", length, 90, 70), each, kerf=kerf)
    taken = count * each + max(0, count - 1) * kerf
    assert taken <= length + 1e-6
    assert taken + each + (kerf if count else 0) > length - 1e-6


def test_bars_are_cut_from_the_soap_and_not_from_its_liner() -> None:
    """250 mm lined with 2 mm at both ends holds 246 mm of soap: nine bars of 25 mm, not ten."""
    assert bars(Mould("loaf", 250, 90, 70, liner=2), 25) == 9


@pytest.mark.parametrize(
    ("mould", "along", "across", "kerf", "count"),
    [
        (Mould("loaf", 254, 90, 70, liner=2), 25.0, None, 0.0, 10),
        (Mould("loaf", 253.9, 90, 70, liner=2), 25.0, None, 0.0, 9),
        (Mould("slab", 304, 204, 40, liner=2), 75.0, 50.0, 0.0, 16),
        (Mould("slab", 303.9, 203.9, 40, liner=2), 75.0, 50.0, 0.0, 9),
        (Mould("slab", 300, 200, 40, count=2), 75.0, 50.0, 0.0, 32),
        (Mould("loaf", 252, 90, 70), 25.0, None, 1.0, 9),
        (Mould("cylinder", length=252, diameter=70, liner=2), 25.0, 30.0, 0.0, 10),
        (Mould("cavities", cavity_ml=90.0, count=6), 25.0, None, 0.0, 6),
        (Mould("loaf", 250, 90, 70), 0.0, None, 0.0, 0),
        (Mould("loaf", 20, 90, 70), 25.0, None, 0.0, 0),
    ],
)
def test_bars_counted_by_hand(
    mould: Mould, along: float, across: float | None, kerf: float, count: int
) -> None:
    """A liner stands at both ends of a loaf, at one of a pipe; nine cuts of 1 mm cost the tenth bar of 252 mm."""
    assert bars(mould, along, across, kerf) == count


def test_a_liner_thicker_than_the_mould_leaves_nothing() -> None:
    assert millilitres(Mould("loaf", 250, 8, 70, liner=5)) == 0.0
    assert millilitres(Mould("cylinder", length=2, diameter=70, liner=5)) == 0.0


@REPEATABLE
@given(st.floats(0.5, 1.5), st.floats(0.0, 400.0), st.floats(500.0, 9000.0))
def test_the_oils_that_fill_a_mould(slope: float, fixed: float, wanted: float) -> None:
    """Where the batter is a straight line in the oils, the answer is its own inverse."""
    found = filled_by(lambda oils: fixed + slope * oils, wanted)
    assert found == pytest.approx((wanted - fixed) / slope, rel=1e-9)


def test_a_mould_that_other_things_fill_has_no_room() -> None:
    assert filled_by(lambda oils: 500.0 + oils, 400.0) is None
    assert filled_by(lambda oils: 500.0 + oils, 500.5) is None
    assert filled_by(lambda oils: 500.0 + oils, 502.0) == pytest.approx(2.0)


def test_a_slab_is_cut_inside_its_liner_both_ways() -> None:
    """300 by 200 mm with 10 mm of liner leave 280 by 180: by 70 and 60 mm that is 4 by 3 bars.

    With cuts of 2 mm only 3 bars of 70 go into 280 (4 take 286), and 2 of 60 into 180 (3 take 184).
    """
    slab = Mould("slab", 300, 200, 40, liner=10)
    assert bars(slab, 70, 60) == 12
    assert bars(slab, 70, 60, kerf=2) == 6
    assert bars(slab, 70) == 4
    assert bars(Mould("cylinder", length=300, diameter=80, liner=10), 72.5) == 4


@pytest.mark.parametrize(
    ("mould", "volume", "height"),
    [
        (Mould("loaf", 250, 90, 80), 900.0, 40.0),
        (Mould("loaf", 254, 94, 82, liner=2), 900.0, 40.0),
        (Mould("slab", 300, 200, 40, count=2), 2400.0, 20.0),
        (Mould("cylinder", length=250, diameter=70), 481.056, 125.0),
        (Mould("loaf", 250, 90, 80), 1800.0, 80.0),
        (Mould("loaf", 250, 90, 80), 1800.1, None),
        (Mould("loaf", 250, 90, 80), 0.0, None),
        (Mould("cavities", cavity_ml=90.0, count=6), 300.0, None),
    ],
)
def test_how_high_batter_stands(mould: Mould, volume: float, height: float | None) -> None:
    """By plain arithmetic, from the inner bottom; two slabs share it, and a pipe stands upright."""
    found = fill_height(mould, volume)
    assert found == (pytest.approx(height, abs=1e-4) if height is not None else None)


@REPEATABLE
@given(lengths, lengths, lengths, st.floats(1.0, 1.5), st.floats(1.0, 1.5), st.floats(0.05, 1.0))
def test_a_sloping_mould_filled_to_a_height_holds_its_slices(
    length: float, width: float, height: float, a: float, b: float, part: float
) -> None:
    """Slices summed up to the height found are the volume poured."""
    mould = Mould("loaf", length, width, height, top_length=length * a, top_width=width * b)
    volume = millilitres(mould) * part
    found = fill_height(mould, volume)
    assert found is not None
    up = found / height
    below = Mould("loaf", length, width, found, length * (1 + (a - 1) * up), width * (1 + (b - 1) * up))
    assert sliced(below) == pytest.approx(volume, rel=1e-5)
