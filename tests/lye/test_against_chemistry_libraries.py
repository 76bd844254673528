"""Molar masses, factors and stoichiometry against two independent chemistry libraries.

Tolerance 3e-5, relative, for a molar mass: the libraries carry the newer abridged standard atomic
weights (C 12.011, H 1.008, O 15.999) where the engine has C 12.0107, H 1.00794, O 15.9994; in a
fatty acid that makes up to 2.5e-5. A quotient of two such masses may be off by both: 5e-5. One atom
of hydrogen too many would show as 9e-4 in the heaviest triglyceride.
"""

from __future__ import annotations

from functools import cache

import molmass
import numpy as np
import periodictable
import pytest
from scipy.linalg import null_space

from saponary.lye import constants as c
from saponary.lye.fatty_acids import FATTY_ACIDS, iodine_value, saponification_value
from saponary.lye.figures import weigh
from saponary.lye.formula import Alkali, Formula, Oil, Water
from saponary.pantry.standard import standard

NEWER_WEIGHTS = 3e-5
NEWER_QUOTIENT = 5e-5

SUBSTANCES = {
    "NaOH": c.NAOH,
    "KOH": c.KOH,
    "C3H8O3": c.GLYCEROL,
    "H2O": c.WATER,
    "I2": c.IODINE,
}

# Formulas written from the acids' systematic names.
FORMULAS = {
    "C4:0": "C4H8O2",
    "C6:0": "C6H12O2",
    "C8:0": "C8H16O2",
    "C10:0": "C10H20O2",
    "C12:0": "C12H24O2",
    "C14:0": "C14H28O2",
    "C16:0": "C16H32O2",
    "C16:1": "C16H30O2",
    "C17:0": "C17H34O2",
    "C17:1": "C17H32O2",
    "C18:0": "C18H36O2",
    "C18:1": "C18H34O2",
    "C18:1-OH": "C18H34O3",
    "C18:2": "C18H32O2",
    "C18:3": "C18H30O2",
    "C18:4": "C18H28O2",
    "C20:0": "C20H40O2",
    "C20:1": "C20H38O2",
    "C20:2": "C20H36O2",
    "C22:0": "C22H44O2",
    "C22:1": "C22H42O2",
    "C22:2": "C22H40O2",
    "C24:0": "C24H48O2",
    "C24:1": "C24H46O2",
}


def _by_periodictable(formula: str) -> float:
    return float(periodictable.formula(formula).mass)


@cache
def _by_molmass(formula: str) -> float:
    return float(molmass.Formula(formula).mass)


def _balanced(left: set[str], right: set[str]) -> dict[str, float]:
    """Moles of each substance for one of the rarest, by the elements that periodictable counts in it."""
    names = sorted(left) + sorted(right)
    atoms = [periodictable.formula(name).atoms for name in names]
    elements = sorted({str(element) for one in atoms for element in one})
    counts = [{str(element): count for element, count in one.items()} for one in atoms]
    signs = [1 if name in left else -1 for name in names]
    matrix = [
        [sign * count.get(element, 0) for sign, count in zip(signs, counts, strict=True)]
        for element in elements
    ]
    (moles,) = null_space(np.array(matrix, dtype=float), rcond=1e-9).T
    assert (moles > 0).all() or (moles < 0).all(), "no reaction between these"
    return dict(zip(names, (moles / min(moles, key=abs)).tolist(), strict=True))


LIBRARIES = pytest.mark.parametrize("mass", [_by_periodictable, _by_molmass])


@LIBRARIES
@pytest.mark.parametrize("formula", SUBSTANCES)
def test_molar_masses_of_what_takes_part(mass, formula: str) -> None:
    assert SUBSTANCES[formula] == pytest.approx(mass(formula), rel=NEWER_WEIGHTS)


def test_printed_molar_masses() -> None:
    """NaOH 39.9971, KOH 56.1056, glycerol 92.0938, water 18.0153, iodine 253.809: handbook, from memory."""
    assert pytest.approx(39.9971, abs=5e-5) == c.NAOH
    assert pytest.approx(56.1056, abs=5e-5) == c.KOH
    assert pytest.approx(92.0938, abs=5e-5) == c.GLYCEROL
    assert pytest.approx(18.0153, abs=5e-5) == c.WATER
    assert pytest.approx(253.809, abs=5e-4) == c.IODINE


def test_every_acid_has_a_formula_here() -> None:
    assert set(FORMULAS) == set(FATTY_ACIDS)


@LIBRARIES
@pytest.mark.parametrize("key", FORMULAS)
def test_molar_masses_of_the_fatty_acids(mass, key: str) -> None:
    assert FATTY_ACIDS[key].molar_mass == pytest.approx(mass(FORMULAS[key]), rel=NEWER_WEIGHTS)


@LIBRARIES
def test_one_alkali_for_the_other(mass) -> None:
    """KOH to NaOH 1.40274 and 0.71289 back: the quotient of the molar masses."""
    assert pytest.approx(mass("KOH") / mass("NaOH"), rel=NEWER_QUOTIENT) == c.KOH / c.NAOH
    assert pytest.approx(1.40274, abs=5e-6) == c.KOH / c.NAOH
    assert pytest.approx(0.71289, abs=5e-6) == c.NAOH / c.KOH


@LIBRARIES
def test_glycerol_by_gram_of_alkali(mass) -> None:
    """0.76750 g per g of NaOH and 0.54715 g per g of KOH, by stoichiometry."""
    assert pytest.approx(mass("C3H8O3") / (3 * mass("NaOH")), rel=NEWER_QUOTIENT) == c.GLYCEROL / (3 * c.NAOH)
    assert pytest.approx(0.76750, abs=5e-6) == c.GLYCEROL / (3 * c.NAOH)
    assert pytest.approx(0.54715, abs=5e-6) == c.GLYCEROL / (3 * c.KOH)


# AOCS Cd 1c-85, calculated iodine value: its six factors for triglycerides, printed to 0.001.
AOCS_FACTORS = {
    "C16:1": 0.950,
    "C18:1": 0.860,
    "C18:2": 1.732,
    "C18:3": 2.616,
    "C20:1": 0.785,
    "C22:1": 0.723,
}


@pytest.mark.parametrize("key", AOCS_FACTORS)
def test_iodine_factors_of_the_official_method(key: str) -> None:
    assert FATTY_ACIDS[key].iodine_factor == pytest.approx(AOCS_FACTORS[key], abs=5e-4)
    assert iodine_value({key: 0.4}) == pytest.approx(100 * AOCS_FACTORS[key], abs=0.05)


@LIBRARIES
@pytest.mark.parametrize("key", FORMULAS)
def test_iodine_factors_by_the_libraries(mass, key: str) -> None:
    """One I2 for each double bond: three triglyceride tails, less the three waters of their esters."""
    bonds = int(key.split(":")[1].split("-")[0])
    triglyceride = 3 * mass(FORMULAS[key]) + mass("C3H8O3") - 3 * mass("H2O")
    assert FATTY_ACIDS[key].iodine_factor == pytest.approx(
        3 * bonds * mass("I2") / triglyceride, rel=NEWER_QUOTIENT
    )


# Entry: formula, its neutral salt, and g NaOH and g KOH per g, worked by hand to four places.
ACIDS = {
    "citric-acid": ("C6H8O7", "C6H5O7Na3", 0.6246, 0.8761),
    "citric-acid-monohydrate": ("C6H10O8", "C6H5O7Na3", 0.5710, 0.8010),
    "lactic-acid": ("C3H6O3", "C3H5O3Na", 0.4440, 0.6229),
    "acetic-acid": ("C2H4O2", "C2H3O2Na", 0.6660, 0.9343),
    "tartaric-acid": ("C4H6O6", "C4H4O6Na2", 0.5330, 0.7476),
    "malic-acid": ("C4H6O5", "C4H4O5Na2", 0.5966, 0.8369),
    "ascorbic-acid": ("C6H8O6", "C6H7O6Na", 0.2271, 0.3186),
    "glycolic-acid": ("C2H4O3", "C2H3O3Na", 0.5259, 0.7377),
    "sodium-bicarbonate": ("NaHCO3", "Na2CO3", 0.4761, 0.6679),
    "disodium-edta": ("C10H18N2Na2O10", "C10H12N2Na4O8", 0.2149, 0.3014),
}


@pytest.mark.parametrize("name", ACIDS)
def test_alkali_taken_by_an_acid(name: str) -> None:
    """The pantry's acids, by the balanced reaction with NaOH and by the figures worked by hand."""
    formula, salt, sodium, potassium = ACIDS[name]
    moles = _balanced({formula, "NaOH"}, {salt, "H2O"})
    hydroxides = moles["NaOH"] / moles[formula]
    taken = standard().additions[name].acid
    # The molar masses of the table are rounded to 0.001, and EDTA's is printed as 372.24.
    assert taken == pytest.approx(hydroxides / _by_molmass(formula), rel=NEWER_QUOTIENT)
    assert taken * c.NAOH == pytest.approx(sodium, abs=5e-5)
    assert taken * c.KOH == pytest.approx(potassium, abs=5e-5)


@pytest.mark.parametrize(
    ("name", "of", "share"),
    [
        ("vinegar", "acetic-acid", 0.05),
        ("lactic-acid-88", "lactic-acid", 0.88),
        ("glycolic-acid-70", "glycolic-acid", 0.7),
    ],
)
def test_a_solution_takes_its_share(name: str, of: str, share: float) -> None:
    """A solution takes what the acid in it takes: vinegar of 5 % a twentieth, 0.0333 g NaOH per g."""
    additions = standard().additions
    assert additions[name].acid == pytest.approx(share * additions[of].acid, rel=1e-12)


def _triglyceride(key: str) -> str:
    """Three acids and glycerol less three waters, C(3n+3)H(3h+2)O(3o)."""
    acid = FORMULAS[key]
    carbons, rest = acid[1:].split("H")
    hydrogens, oxygens = rest.split("O")
    return f"C{3 * int(carbons) + 3}H{3 * int(hydrogens) + 2}O{3 * int(oxygens)}"


def test_triolein_and_sodium_hydroxide() -> None:
    """One triolein, three NaOH: three sodium oleate, one glycerol, and no water."""
    assert _triglyceride("C18:1") == "C57H104O6"
    moles = _balanced({"C57H104O6", "NaOH"}, {"C18H33NaO2", "C3H8O3"})
    assert moles == pytest.approx({"C57H104O6": 1, "NaOH": 3, "C18H33NaO2": 3, "C3H8O3": 1})


@pytest.mark.parametrize("key", FORMULAS)
def test_saponification_value_of_a_pure_triglyceride(key: str) -> None:
    whole = _by_molmass(_triglyceride(key))
    assert FATTY_ACIDS[key].triglyceride_molar_mass == pytest.approx(whole, rel=NEWER_WEIGHTS)
    assert saponification_value({key: 1.0}) == pytest.approx(
        3000 * _by_molmass("KOH") / whole, rel=NEWER_QUOTIENT
    )


@pytest.mark.parametrize("key", FORMULAS)
def test_saponification_value_of_a_free_acid(key: str) -> None:
    expected = 1000 * _by_molmass("KOH") / _by_molmass(FORMULAS[key])
    assert saponification_value({key: 7.0}, ester="acid") == pytest.approx(expected, rel=NEWER_QUOTIENT)


def _made_of(ester: str, alkali: Alkali, superfat: float = 0.0):
    value = saponification_value({"C18:1": 1.0}, ester=ester)
    oil = Oil("pure", 1000.0, value, value, value, ester=ester)
    return weigh(Formula((oil,), alkali, superfat, Water("to-lye", 2.0)))


@pytest.mark.parametrize(
    ("alkali", "hydroxide", "soap"),
    [(Alkali(), "NaOH", "C18H33NaO2"), (Alkali(0.0, 1.0), "KOH", "C18H33KO2")],
)
def test_what_a_kilogram_of_triolein_becomes(alkali: Alkali, hydroxide: str, soap: str) -> None:
    """Soap and glycerol of the mass balance, by the molar masses of the products themselves."""
    figures = _made_of("triglyceride", alkali)
    moles = 1000 / _by_molmass("C57H104O6")
    assert figures.weights.total == pytest.approx(3 * moles * _by_molmass(hydroxide), rel=NEWER_QUOTIENT)
    assert figures.balance.soap == pytest.approx(3 * moles * _by_molmass(soap), rel=NEWER_QUOTIENT)
    assert figures.balance.glycerol == pytest.approx(moles * _by_molmass("C3H8O3"), rel=NEWER_QUOTIENT)
    assert figures.balance.water_formed == 0.0


def test_what_a_kilogram_of_oleic_acid_becomes() -> None:
    """A free acid gives soap and one water, 0.4504 g for each g of NaOH, and no glycerol."""
    figures = _made_of("acid", Alkali(), superfat=0.05)
    moles = 950 / _by_molmass("C18H34O2")
    assert figures.balance.soap == pytest.approx(moles * _by_molmass("C18H33NaO2"), rel=NEWER_QUOTIENT)
    assert figures.balance.water_formed == pytest.approx(moles * _by_molmass("H2O"), rel=NEWER_QUOTIENT)
    assert figures.balance.water_formed / figures.weights.total == pytest.approx(0.4504, abs=5e-5)
    assert figures.balance.glycerol == 0.0
    assert figures.balance.oil_left == pytest.approx(50.0)


def test_a_wax_gives_no_value_from_its_acids() -> None:
    with pytest.raises(ValueError, match="wax"):
        saponification_value({"C20:1": 1.0}, ester="wax")
