"""What goes in once the alkali is spent: no lye is weighed for it, and its superfat stands by itself.

Saponification values by hand; KOH 56.1056 g/mol, NaOH 39.9971 g/mol (IUPAC atomic weights).
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.lye.contents import as_charged, as_found
from saponary.lye.figures import weigh
from saponary.lye.fingerprint import fingerprint
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Portion, Water

OLIVE = Oil("olive", 800.0, 190.0, 186.0, 194.0)
COCONUT = Oil("coconut", 200.0, 256.5, 250.0, 263.0)
SHEA = Oil("shea-butter", 50.0, 180.0, 175.0, 185.0, late=True)
HOT = Formula((OLIVE, COCONUT), Alkali(), 0.03, Water("of-oils", 0.38), after_cook=(SHEA,))


def test_no_lye_is_weighed_for_oils_after_the_cook() -> None:
    """(800·190 + 200·256.5)/1000/56.1056 mol, less 3 %, times 39.9971: 140.58 g, with the shea or without it."""
    with_it, without = weigh(HOT), weigh(replace(HOT, after_cook=()))
    assert with_it.weights.sodium_hydroxide == pytest.approx(140.58, abs=0.005)
    assert with_it.weights == without.weights and with_it.superfat == pytest.approx(0.03)
    assert with_it.batter - without.batter == 50.0


def test_the_superfat_after_the_cook_is_a_figure_of_its_own() -> None:
    """Of 203.3 + 9.0 g of KOH that all the oils ask for, 9.0 are the shea's: 4.239 %; unmet in all 1 - 0.97·203.3/212.3."""
    found = weigh(HOT)
    assert found.late.superfat == pytest.approx(9.0 / 212.3)
    assert found.late.superfat_in_all == pytest.approx(1 - 0.97 * 203.3 / 212.3)


def test_an_acid_after_the_cook_takes_no_lye_and_its_water_is_none_of_the_lyes() -> None:
    vinegar = Addition("vinegar", 100.0, acid=0.0008, water=0.95)
    early, late = (
        weigh(replace(HOT, additions=(replace(vinegar, stage=stage),))) for stage in ("trace", "after-cook")
    )
    plain = weigh(HOT)
    assert early.weights.total > plain.weights.total == late.weights.total
    assert early.water.plain == pytest.approx(early.water.total - 95.0)
    assert late.water.plain == plain.water.plain
    assert late.fresh_water == pytest.approx(plain.fresh_water + 95.0)


def test_oils_after_the_cook_stay_oils_in_the_bar() -> None:
    figures = weigh(HOT)
    found = {(part.kind, part.id): part.grams for part in as_found(HOT, figures)}
    assert found["oil", "shea-butter"] == 50.0 and ("soap", "shea-butter") not in found
    assert sum(found.values()) == pytest.approx(sum(part.grams for part in as_charged(HOT, figures)))
    assert figures.balance.oil_left == pytest.approx(0.03 * 1000 + 50.0, abs=0.5)


def test_the_pot_before_the_cook_holds_nothing_that_comes_after_it() -> None:
    late = replace(HOT, liquids=(Liquid("yoghurt", 30.0, 0.85, stage="after-cook"),))
    assert weigh(late).late.in_pot == pytest.approx(weigh(late).batter - 80.0)


def test_what_comes_after_the_cook_changes_the_fingerprint_and_nothing_else_does() -> None:
    marks = {
        fingerprint(one)
        for one in (HOT, replace(HOT, after_cook=()), replace(HOT, after_cook=(replace(SHEA, grams=60.0),)))
    }
    assert len(marks) == 3
    assert fingerprint(HOT) == fingerprint(HOT.scaled(2.5))


SOAP = Addition("soap-of-a", 600.0, "melt", water=0.1, remelted=True)
MELTED = Formula((), Alkali(), 0.0, Water("to-lye", 0.0), (Liquid("milk", 90.0, 0.9, stage="melt"),), (SOAP,))


def test_a_rebatch_weighs_no_lye_and_no_plain_water() -> None:
    found = weigh(MELTED)
    assert not MELTED.weighs_lye and MELTED.base_grams == 600.0
    assert found.weights.total == found.water.plain == found.superfat == found.superfat_as_weighed == 0.0
    assert found.batter == found.late.in_pot == 690.0
    assert found.fresh_water == pytest.approx(60.0 + 81.0)


def test_an_acid_in_a_rebatch_raises_no_lye() -> None:
    sour = replace(MELTED, additions=(SOAP, Addition("citric-acid", 10.0, "after-cook", acid=0.0156)))
    assert weigh(sour).weights.total == 0.0


@settings(max_examples=60, deadline=None)
@given(
    st.floats(1.0, 5000.0),
    st.floats(0.0, 0.2),
    st.floats(0.0, 500.0),
    st.floats(0.05, 0.95),
)
def test_portions_and_sizes_hold_with_oils_after_the_cook(
    grams: float, superfat: float, late: float, share: float
) -> None:
    """Batter of the portions sums to the batch's; every size is the formula times one factor."""
    formula = Formula(
        (replace(OLIVE, grams=grams),),
        Alkali(),
        superfat,
        Water("lye-strength", 0.3),
        portions=(Portion("a", share), Portion("b", 1 - share)),
        after_cook=(replace(SHEA, grams=late),),
    )
    found = weigh(formula)
    assert sum(p.batter for p in found.portions) == pytest.approx(found.batter)
    assert sum(p.batter_ml for p in found.portions) == pytest.approx(found.batter_ml)
    doubled = weigh(formula.scaled(2.0))
    assert doubled.batter == pytest.approx(2 * found.batter)
    assert doubled.late.superfat_in_all == pytest.approx(found.late.superfat_in_all)
    assert found.late.superfat_in_all == pytest.approx(
        superfat + found.late.superfat - superfat * found.late.superfat
    )
