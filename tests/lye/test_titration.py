"""Free caustic alkali against the formula of ISO 456 and ISO 684 with its printed factors, and other molar masses."""

from __future__ import annotations

import pytest
from molmass import Formula as Molecule

from saponary.lye.titration import Titration

CASES = [(1.2, 0.1, 5.0), (0.4, 0.1, 5.027), (12.5, 0.5, 10.0), (0.0, 0.1, 5.0)]


@pytest.mark.parametrize(("ml", "normality", "sample"), CASES)
def test_the_standards_formula(ml: float, normality: float, sample: float) -> None:
    """% NaOH = V·N·39.997/(10·m), 56.105 for KOH: the factors as the standards print them, to five figures."""
    for metal, factor in (("sodium", 39.997), ("potassium", 56.105)):
        found = Titration(ml, normality, sample, metal)  # type: ignore[arg-type]
        assert 100 * found.free_caustic == pytest.approx(ml * normality * factor / (10 * sample), rel=3e-5)


def test_a_worked_example() -> None:
    """By hand: 1.2 ml of 0.1 mol/l is 0.12 mmol, 4.80 mg of NaOH, in 5 g: 0.096 %."""
    assert 100 * Titration(1.2, 0.1, 5.0).free_caustic == pytest.approx(0.096, abs=5e-5)


@pytest.mark.parametrize(("metal", "hydroxide"), [("sodium", "NaOH"), ("potassium", "KOH")])
def test_what_is_found_is_in_the_whole_lot_too(metal: str, hydroxide: str) -> None:
    """Grams of hydroxide in a lot, by a library's molar mass (molmass), over its weight is the share found."""
    found = Titration(2.0, 0.1, 4.0, metal)  # type: ignore[arg-type]
    grams = found.moles_in(1200.0) * Molecule(hydroxide).mass
    assert grams / 1200.0 == pytest.approx(found.free_caustic, rel=2e-5)
