"""The superfat as poured is that of the weights put in, worked here by plain arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest

from saponary.lye.alkali import Weights
from saponary.lye.formula import Addition, Alkali, Liquid, Oil
from saponary.lye.poured import PutIn, as_poured

KOH, NAOH = 56.1056, 39.9971
PUT = PutIn(
    oils=(
        Oil("olive", 620.0, 190.0, 186.0, 194.0),
        Oil("olive", 200.0, 190.0, 186.0, 194.0, infused_with="a"),
    ),
    liquids=(Liquid("juice", 60.0, 0.9, acid=0.001),),
    additions=(Addition("acid", 12.0, acid=0.015), Addition("acid", 50.0, stage="pour", acid=0.015)),
    alkali=Alkali(0.6, 0.4, 0.98, 0.9),
    weights=Weights(60.0, 70.0),
)


def test_both_alkalis_and_acids_count_and_what_is_set_in_at_the_pour_does_not() -> None:
    """Molar masses by IUPAC atomic weights."""
    moles = 60 * 0.98 / NAOH + 70 * 0.9 / KOH - 12 * 0.015 - 60 * 0.001
    assert as_poured(PUT) == pytest.approx(1 - moles / (820 * 0.190 / KOH), abs=1e-6)


@pytest.mark.parametrize(("name", "molar", "pure"), [("sodium", NAOH, 0.98), ("potassium", KOH, 0.9)])
def test_a_gram_more_of_either_alkali_lowers_the_superfat(name: str, molar: float, pure: float) -> None:
    key = f"{name}_hydroxide"
    more = replace(PUT, weights=replace(PUT.weights, **{key: getattr(PUT.weights, key) + 1.0}))
    assert as_poured(PUT) - as_poured(more) == pytest.approx(pure / molar / (820 * 0.190 / KOH), rel=1e-4)
