"""What takes and brings alkali, and the superfat that is left, by hand."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.lye.alkali import NOISE, Weights, acid, base, base_most, free, shares_of, superfat
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=200)

SOUR, ASH = Addition("citric-acid", 10.0, acid=0.015), Addition("ash", 30.0, base=0.002, base_most=0.003)


def test_acids_and_ash_are_summed_but_not_those_set_in_at_the_pour() -> None:
    late = Addition("embeds", 50.0, "pour", acid=0.01, base=0.01, base_most=0.02)
    juice = Liquid("juice", 40.0, 0.9, acid=0.001)
    assert acid([SOUR, late, juice]) == pytest.approx(0.15 + 0.04)
    assert base([ASH, late]) == pytest.approx(0.06)
    assert base_most([ASH, late, Addition("lye-soap", 10.0, base=0.004)]) == pytest.approx(0.09 + 0.04)
    assert free(3.0, [SOUR, ASH, late], [juice]) == pytest.approx(3.0 + 0.06 - 0.15 - 0.04)


@REPEATABLE
@given(
    st.lists(st.tuples(st.floats(1.0, 3000.0), st.floats(80.0, 280.0)), min_size=1, max_size=8),
    st.floats(0.5, 1.0),
    st.floats(0.5, 1.0),
    st.floats(0.0, 1.0),
    st.lists(st.tuples(st.floats(0.0, 80.0), st.floats(0.0, 0.02)), max_size=4),
)
def test_a_superfat_of_nought_is_nought(
    oils: list[tuple[float, float]],
    pure: float,
    less_pure: float,
    sodium: float,
    acids: list[tuple[float, float]],
) -> None:
    """Never a hair below it, whatever sums it is worked out from."""
    formula = Formula(
        tuple(Oil(f"oil-{i}", grams, value, value, value) for i, (grams, value) in enumerate(oils)),
        Alkali(sodium, 1.0 - sodium, pure, less_pure),
        0.0,
        Water("of-oils", 0.33),
        additions=tuple(Addition(f"acid-{i}", grams, acid=taken) for i, (grams, taken) in enumerate(acids)),
    )
    figures = weigh(formula)
    assert figures.superfat == 0.0
    assert figures.bands.worst.low == figures.bands.likely.low == 0.0
    assert figures.balance.oil_left == pytest.approx(0.0, abs=1e-9 * figures.oils)


def test_what_is_below_nought_by_more_than_noise_stays() -> None:
    assert superfat(1.0 + 1e-9, 1.0) == pytest.approx(-1e-9, rel=1e-6)
    assert superfat(1.0 + NOISE / 2, 1.0) == 0.0
    assert superfat(1.0, 0.0) == 0.0


def test_alkali_that_is_brought_counts_among_the_alkalis() -> None:
    """1 mol of NaOH of 98 %, and 30 g of ash soap at 0.002 mol/g of potassium hydroxide."""
    formula = Formula((), Alkali(1.0, 0.0, 0.98), 0.05, Water("of-oils", 0.3), additions=(ASH,))
    found = {each.metal: each for each in shares_of(Weights(39.9971 / 0.98, 0.0), formula)}
    assert found["sodium"].share == pytest.approx(1 / 1.06, abs=1e-6)
    assert found["potassium"].share == pytest.approx(0.06 / 1.06, abs=1e-6)
    assert (found["sodium"].molar, found["potassium"].molar) == pytest.approx((39.9971, 56.1056), abs=1e-4)
    assert shares_of(Weights(0.0, 0.0), formula)[0].metal == "potassium"


def test_the_worst_case_counts_what_may_be_brought_at_the_most() -> None:
    """85 g of a ready-made soap with 4.53 % of free alkali as NaOH, in 1275 g of an oil of 190: 2.23 points."""
    soap = Addition("ready-made-soap", 85.0, base_most=0.0453 / 39.9971, base_of="sodium")
    formula = Formula(
        (Oil("oil", 1275.0, 190.0, 190.0, 190.0),), Alkali(), 0.05, Water("of-oils", 0.3), additions=(soap,)
    )
    figures = weigh(formula)
    assert figures.superfat == pytest.approx(0.05)
    assert figures.bands.likely.low == pytest.approx(0.05)
    assert figures.bands.worst.low == pytest.approx(0.05 - 0.0223, abs=5e-5)
    assert figures.bands.worst.high == pytest.approx(0.05)


def test_fat_of_additions_joins_that_of_liquids() -> None:
    """40 g of milk powder with 26 % of a fat of 225: 10.4 g, 0.041707 mol beside 3.386471 mol of the oil."""
    powder = Addition("milk-powder", 40.0, fat=0.26, fat_value=225.0)
    formula = Formula(
        (Oil("oil", 1000.0, 190.0, 190.0, 190.0),), Alkali(), 0.05, Water("of-oils", 0.3), additions=(powder,)
    )
    figures = weigh(formula)
    assert figures.liquids_fat == pytest.approx(10.4)
    assert figures.superfat_with_liquids_fat == pytest.approx(
        1 - 0.95 * 3.386471 / (3.386471 + 0.041707), abs=1e-6
    )


@pytest.mark.parametrize("grams", [0.0, 30.0])
def test_what_nobody_knows_leaves_the_superfat_unknown(grams: float) -> None:
    strange = Addition("bath-salt", grams, known=False)
    formula = Formula(
        (Oil("oil", 1000.0, 190.0, 190.0, 190.0),),
        Alkali(),
        0.05,
        Water("of-oils", 0.3),
        additions=(strange,),
    )
    assert weigh(formula).superfat_known is (grams == 0.0)
    assert weigh(formula).unknown == (("bath-salt",) if grams else ())
