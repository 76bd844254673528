"""Alkali kept as a solution, worked by hand, and weighed as a maker weighs it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saponary.lye.alkali import Weights, demand, superfat
from saponary.lye.figures import weigh
from saponary.lye.formula import Alkali, Formula, Oil, Stock, Water
from saponary.lye.stock import from_stock, holds

OILS = (Oil("olive", 1000.0, 190.0, 186.0, 194.0),)


def test_a_worked_example() -> None:
    """By hand: 135 g of NaOH in a 50 % stock are 270 g of it; of 274 g of water it holds 135, so 139 beside."""
    found = from_stock(Weights(135.0, 0.0), 274.0, Stock(0.5))
    assert (found.sodium, found.potassium, found.water, found.beside) == (270.0, 0.0, 135.0, 139.0)


def test_a_stock_weaker_than_the_lye_brings_too_much_water() -> None:
    """A 33 % lye cannot be made of a 30 % stock; of a 33 % one it is the stock alone."""
    lye = 135.0
    water = lye * 0.67 / 0.33
    assert from_stock(Weights(lye, 0.0), water, Stock(0.30)).beside < 0
    assert from_stock(Weights(lye, 0.0), water, Stock(0.33)).beside == pytest.approx(0.0, abs=1e-9)


strengths = st.one_of(st.none(), st.floats(0.2, 0.52))


@given(st.floats(0, 500), st.floats(0, 500), st.floats(0, 2000), strengths, strengths)
def test_what_is_weighed_sums_to_the_lye(
    sodium: float, potassium: float, water: float, of_sodium: float | None, of_potassium: float | None
) -> None:
    found = from_stock(Weights(sodium, potassium), water, Stock(of_sodium, of_potassium))
    dry = (0.0 if of_sodium else sodium) + (0.0 if of_potassium else potassium)
    assert dry + found.sodium + found.potassium + found.beside == pytest.approx(sodium + potassium + water)
    assert found.sodium * (of_sodium or 0.0) == pytest.approx(sodium if of_sodium else 0.0)


@pytest.mark.parametrize(
    ("metal", "strength", "celsius", "stays"),
    [
        ("sodium", 0.50, 20.0, True),
        ("sodium", 0.50, 10.0, False),
        ("sodium", 0.29, 0.0, True),
        ("sodium", 0.30, 0.0, False),
        ("potassium", 0.50, 5.0, True),
        ("potassium", 0.53, 20.0, False),
    ],
)
def test_a_stock_stays_dissolved(metal: str, strength: float, celsius: float, stays: bool) -> None:
    """The handbook table of solubilities: NaOH 42 and 109 g, KOH 97 and 112 g in 100 g of water at 0 and 20 °C,
    which are 29.6, 52.2, 49.2 and 52.8 %."""
    assert holds(metal, strength, celsius) is stays  # type: ignore[arg-type]


def test_the_superfat_as_weighed_is_that_of_the_stock_on_the_scale() -> None:
    """A gram of stock is half a gram of alkali, so that steps of a gram are halved."""
    formula = Formula(OILS, Alkali(), 0.05, Water("lye-strength", 0.33), scale_step=5.0, stock=Stock(0.5))
    found = weigh(formula)
    on_scale = round(found.weights.sodium_hydroxide / 0.5 / 5) * 5 * 0.5
    assert on_scale != round(found.weights.sodium_hydroxide / 5) * 5
    expected = superfat(Weights(on_scale, 0.0).moles(Alkali()), demand(OILS))
    assert found.superfat_as_weighed == pytest.approx(expected)


def test_a_stock_changes_no_other_figure() -> None:
    dry = Formula(OILS, Alkali(), 0.05, Water("lye-strength", 0.33))
    kept = Formula(OILS, Alkali(), 0.05, Water("lye-strength", 0.33), stock=Stock(0.5))
    assert (weigh(dry).weights, weigh(dry).water) == (weigh(kept).weights, weigh(kept).water)
