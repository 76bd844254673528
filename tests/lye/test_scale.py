"""The superfat of weights rounded to the scale's step, worked by hand."""

from __future__ import annotations

import pytest

from saponary.lye.alkali import Weights
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water
from saponary.lye.scale import NO_OIL, superfat_as_weighed

NAOH, KOH = 39.9971, 56.1056


def batch(oil: float, step: float, *, liquids: float = 0.0, additions: float = 0.0) -> Formula:
    return Formula(
        (Oil("oil", oil, 190.0, 186.0, 194.0),),
        Alkali(0.5, 0.5, 0.98, 0.9),
        0.05,
        Water("of-oils", 0.3),
        (Liquid("juice", liquids, 0.9, acid=0.001),) if liquids else (),
        (Addition("acid", additions, acid=0.015), Addition("ash", additions, base=0.002))
        if additions
        else (),
        scale_step=step,
    )


def test_every_weight_is_rounded_and_counts() -> None:
    """Oil 500.4 to 500; acid and ash 10.6 to 11; juice 20.5 to 21; alkalis 30.4 to 30 and 40.6 to 41."""
    formula = batch(500.4, 1.0, liquids=20.5, additions=10.6)
    found = superfat_as_weighed(formula, Weights(30.4, 40.6))
    moles = 30 * 0.98 / NAOH + 41 * 0.9 / KOH + 11 * 0.002 - 11 * 0.015 - 21 * 0.001
    assert found == pytest.approx(1 - moles / (500 * 0.190 / KOH), abs=1e-6)


def test_five_hundred_grams_on_a_scale_of_one_gram() -> None:
    """64.3383 g of sodium hydroxide weighed as 64 g: superfat 5.500 %."""
    formula = Formula((Oil("oil", 500.0, 190.0, 186.0, 194.0),), Alkali(), 0.05, Water("of-oils", 0.3))
    assert superfat_as_weighed(formula, Weights(64.3383, 0.0)) == pytest.approx(0.05500, abs=1e-5)


def test_lye_without_oil_is_no_number_but_the_worst() -> None:
    assert superfat_as_weighed(batch(0.4, 1.0), Weights(5.0, 0.0)) == NO_OIL == -1.0
    assert superfat_as_weighed(batch(0.4, 1.0), Weights(0.2, 0.2)) == 0.0
    sour = batch(0.4, 1.0, additions=10.0)
    assert superfat_as_weighed(sour, Weights(0.0, 0.0)) == 0.0
