"""Total fatty matter and dilution against molar masses of whole molecules, by a library, and a worked example."""

from __future__ import annotations

import pytest
from molmass import Formula as Molecule

from saponary.lye.constants import KOH
from saponary.lye.dilution import acid_for, dilution, total_fatty_matter
from saponary.lye.figures import weigh
from saponary.lye.formula import Alkali, Formula, Liquid, Oil, Water

TRIOLEIN = Molecule("C57H104O6").mass
OLEIC = Molecule("C18H34O2").mass
STEARIC = Molecule("C18H36O2").mass
CETYL_PALMITATE = Molecule("C32H64O2").mass
CITRIC = Molecule("C6H8O7").mass


def fat(name: str, grams: float, molar: float, esters: int, kind: str = "triglyceride") -> Oil:
    """A pure fat: mg of KOH per g by its molar mass and ester groups (ISO 3657)."""
    value = 1000.0 * esters * KOH / molar
    return Oil(name, grams, value, value, value, ester=kind)  # type: ignore[arg-type]


def batch(*oils: Oil, superfat: float = 0.0, liquids: tuple[Liquid, ...] = ()) -> Formula:
    return Formula(oils, Alkali(0.0, 1.0), superfat, Water("to-lye", 3.0), liquids)


@pytest.mark.parametrize("superfat", [0.0, 0.03, 0.5, 1.0])
def test_triolein_gives_three_oleic_acids(superfat: float) -> None:
    """Of the soap the acid itself counts, of the fat that is left the fat."""
    formula = batch(fat("triolein", 1000.0, TRIOLEIN, 3), superfat=superfat)
    found = total_fatty_matter(formula, weigh(formula))
    split = (1 - superfat) * 1000.0 / TRIOLEIN * 3 * OLEIC
    assert found == pytest.approx(split + superfat * 1000.0, rel=1e-5)


def test_an_acid_counts_whole_and_a_wax_as_its_acid_and_alcohol() -> None:
    formula = batch(fat("stearic", 100.0, STEARIC, 1, "acid"), fat("wax", 50.0, CETYL_PALMITATE, 1, "wax"))
    parts = Molecule("C16H32O2").mass + Molecule("C16H34O").mass
    assert total_fatty_matter(formula, weigh(formula)) == pytest.approx(
        100.0 + 50.0 * parts / CETYL_PALMITATE, rel=1e-5
    )


def test_fat_of_milk_counts_as_fat() -> None:
    milk = (Liquid("milk", 200.0, 0.87, fat=0.04),)
    dry = batch(fat("triolein", 1000.0, TRIOLEIN, 3))
    wet = batch(fat("triolein", 1000.0, TRIOLEIN, 3), liquids=milk)
    assert total_fatty_matter(wet, weigh(wet)) - total_fatty_matter(dry, weigh(dry)) == pytest.approx(8.0)


def test_a_worked_dilution() -> None:
    """By hand: 960 g of fatty matter in 1,600 g of paste are 60 %; at 20 % they are in 4,800 g, so 3,200 g more."""
    found = dilution(960.0, 1600.0, 0.20)
    assert (found.share_in_paste, found.water, found.solution) == pytest.approx((0.6, 3200.0, 4800.0))
    assert dilution(960.0, 1600.0, 0.75).water == pytest.approx(-320.0)


def test_the_acid_for_free_alkali() -> None:
    """One citric acid takes three hydroxides: 0.03 mol of alkali takes 0.01 mol of it, 1.92 g."""
    assert acid_for(0.03, 3 / CITRIC) == pytest.approx(1.92, abs=0.005)
    assert acid_for(-0.1, 3 / CITRIC) == 0.0
