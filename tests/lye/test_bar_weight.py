"""What a cured bar weighs, against the parts of the bar, plain proportion, and a curve that is known."""

from __future__ import annotations

from math import exp

import pytest

from saponary.lye.bar_weight import Kept, kept_by_balance, kept_by_bar
from saponary.lye.contents import as_found
from saponary.lye.cure.fit import fit_cure
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water

FORMULA = Formula(
    (Oil("olive", 700.0, 190.0, 186.0, 194.0), Oil("stearic", 50.0, 197.0, 196.0, 198.0, ester="acid")),
    Alkali(0.8, 0.2, 1.0, 0.9),
    0.05,
    Water("lye-strength", 0.33),
    (Liquid("milk", 60.0, 0.87, fat=0.04),),
    (Addition("acid", 12.0, acid=0.0143, water=0.08), Addition("petals", 3.0, "pour", water=0.1)),
)


@pytest.mark.parametrize("water", [0.0, 0.05, 0.10, 0.15])
def test_the_balance_agrees_with_the_parts_of_the_bar(water: float) -> None:
    """Every part of the cured bar, one by one, sums to what is kept of the loaf; so much of it is water."""
    figures = weigh(FORMULA)
    found = as_found(FORMULA, figures, water)
    whole = sum(part.grams for part in found)
    assert figures.loaf * kept_by_balance(figures, water).share == pytest.approx(whole, rel=1e-9)


def test_a_bar_never_gains() -> None:
    assert kept_by_balance(weigh(FORMULA), 0.9).share == 1.0


def test_what_is_poured_for_a_wanted_weight_comes_to_it() -> None:
    """Plain proportion: a bar that keeps 88 % and is to weigh 110 g is poured at 125 g."""
    assert Kept(0.88).to_pour(110.0) == pytest.approx(125.0)
    assert Kept(0.88).cured(125.0) == pytest.approx(110.0)


def test_a_weighed_bar_keeps_what_it_settles_at() -> None:
    """A bar that falls from 128 g towards 112 g by exp(-t/12), weighed without error."""
    days = (0, 3, 7, 14, 21, 28, 35, 42)
    weighed = [(float(day), 112.0 + 16.0 * exp(-day / 12)) for day in days]
    assert kept_by_bar(weighed, fit_cure(weighed), 28) == pytest.approx(112.0 / 128.0, rel=1e-4)


def test_a_bar_first_weighed_on_its_third_day_was_poured_heavier() -> None:
    days = (2, 7, 14, 21, 28, 35, 42)
    weighed = [(float(day), 112.0 + 16.0 * exp(-day / 12)) for day in days]
    assert kept_by_bar(weighed, fit_cure(weighed), 28) == pytest.approx(112.0 / 128.0, rel=1e-3)


def test_what_tells_nothing_is_not_counted() -> None:
    """Two weighings fit no curve: the last counts where it was on a cured day, and the first told the pour."""
    for weighed, expected in (
        ([(0.0, 128.0), (42.0, 112.0)], 112.0 / 128.0),
        ([(0.0, 128.0), (20.0, 114.0)], None),
        ([(9.0, 120.0), (42.0, 112.0)], None),
    ):
        assert kept_by_bar(weighed, fit_cure(weighed), 28) == (
            pytest.approx(expected) if expected is not None else None
        )
