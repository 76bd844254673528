"""The superfat as poured is that of the weights recorded, worked here by plain arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest

from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water
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


def batch() -> Formula:
    return Formula(
        (
            Oil("olive", 600.0, 190.0, 186.0, 194.0),
            Oil("olive", 200.0, 190.0, 186.0, 194.0, infused_with="a"),
        ),
        Alkali(0.6, 0.4, 0.98, 0.9),
        0.05,
        Water("of-oils", 0.3),
        (Liquid("juice", 50.0, 0.9, acid=0.001),),
        (Addition("acid", 10.0, acid=0.015), Addition("ash", 30.0, base=0.002)),
    )


def test_both_alkalis_acids_and_ash_count_as_recorded() -> None:
    """Olive 820 g on two lines, NaOH 60 g of 98 %, KOH 70 g of 90 %, juice 60 g, acid 12 g, ash 20 g."""
    recorded = {
        "olive": 820.0, "sodium-hydroxide": 60.0, "potassium-hydroxide": 70.0, "water": 200.0,
        "juice": 60.0, "acid": 12.0, "ash": 20.0,
    }  # fmt: skip
    poured = as_poured(batch(), 195.0, weigh(batch()).weights, recorded)
    moles = 60 * 0.98 / NAOH + 70 * 0.9 / KOH + 20 * 0.002 - 12 * 0.015 - 60 * 0.001
    assert poured.superfat == pytest.approx(1 - moles / (820 * 0.190 / KOH), abs=1e-6)
    assert poured.lye_strength == pytest.approx(130 / (130 + 200 + 54))
    assert poured.assumed == ()


@pytest.mark.parametrize("name", ["sodium-hydroxide", "potassium-hydroxide"])
def test_a_gram_more_of_either_alkali_lowers_the_superfat(name: str) -> None:
    figures = weigh(batch())
    nominal = getattr(figures.weights, name.replace("-", "_"))
    more = as_poured(batch(), figures.water.plain, figures.weights, {name: nominal + 1.0})
    molar, pure = (NAOH, 0.98) if name.startswith("sodium") else (KOH, 0.9)
    assert figures.superfat - more.superfat == pytest.approx(pure / molar / (800 * 0.190 / KOH), rel=1e-4)


def test_a_lot_without_alkali_has_no_strength() -> None:
    zero = {"sodium-hydroxide": 0.0, "potassium-hydroxide": 0.0}
    assert as_poured(batch(), 195.0, weigh(batch()).weights, zero).lye_strength == 0.0


def test_what_weighs_nothing_in_the_formula_may_be_recorded() -> None:
    nothing = replace(batch(), additions=(Addition("acid", 0.0, acid=0.015),))
    weights = weigh(nothing).weights
    assert as_poured(nothing, 195.0, weights, {"acid": 5.0}) == as_poured(
        nothing, 195.0, weights, {"acid": 0.0}
    )
