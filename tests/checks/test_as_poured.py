"""The superfat as poured is that of the weights recorded, worked here by plain arithmetic."""

from __future__ import annotations

import pytest

from saponary.lye.poured import as_poured, names
from support import PLAIN, prove_one

KOH, NAOH = 56.1056, 39.9971


def test_recorded_weights_give_their_own_superfat() -> None:
    """Molar masses by IUPAC atomic weights; the table's saponification values are not under test."""
    one = prove_one(PLAIN).recipes[0].computed
    values = {o.id: o.saponification_value for o in one.resolved.formula.oils}
    recorded = {"olive": 612.0, "coconut": 250.0, "sodium-hydroxide": 141.5}
    poured = as_poured(one.resolved.formula, one.figures.water.plain, one.figures.weights, recorded)
    grams = {"olive": 612.0, "coconut": 250.0, "sunflower-high-oleic": 150.0}
    demand = sum(g * values[name] for name, g in grams.items()) / 1000 / KOH
    assert poured.superfat == pytest.approx(1 - 141.5 / NAOH / demand, abs=1e-6)
    assert poured.assumed == ("water", "sunflower-high-oleic")
    assert poured.lye_strength == pytest.approx(141.5 / (141.5 + one.figures.water.plain))


def test_nothing_recorded_is_the_formula_itself() -> None:
    one = prove_one(PLAIN).recipes[0].computed
    poured = as_poured(one.resolved.formula, one.figures.water.plain, one.figures.weights, {})
    assert poured.superfat == pytest.approx(one.figures.superfat)
    assert poured.assumed == names(one.resolved.formula)


def test_an_oil_in_two_pots_is_recorded_as_one_weight() -> None:
    text = PLAIN.replace(
        "superfat: 5 %\n",
        "superfat: 5 %\npots: separate\nportions:\n  - {name: a, share: 1/2}\n"
        "  - {name: b, share: 1/2, infused: {olive: calendula}}\n",
    )
    one = prove_one(text).recipes[0].computed
    assert sum(o.id == "olive" for o in one.resolved.formula.oils) == 2
    nominal = {o.id: 0.0 for o in one.resolved.formula.oils}
    for oil in one.resolved.formula.oils:
        nominal[oil.id] += oil.grams
    same = as_poured(one.resolved.formula, one.figures.water.plain, one.figures.weights, nominal)
    assert same.superfat == pytest.approx(one.figures.superfat)
