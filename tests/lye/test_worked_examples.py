"""Whole batches worked by plain arithmetic, apart from the engine, to 0.01 g and 0.01 %.

Two sets, by two hands: A1 to A6 give saponification values of their own; B1 to B6 take the
middle of the Codex ranges (olive 190.0, coconut 256.5, palm 199.5, rapeseed 187.5, sunflower
190.5, lard 197.5). No table of the project is under test. Molar masses: NaOH 39.9971,
KOH 56.1056, citric acid 192.124 and 210.139 with its crystal water, glycerol 92.0938 g/mol.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import nan

import pytest

from saponary.lye import constants as c
from saponary.lye import water as water_of
from saponary.lye.alkali import acid, demand, superfat
from saponary.lye.figures import Figures, weigh
from saponary.lye.formula import Addition, Alkali, Convention, Formula, Liquid, Oil, Water
from saponary.pantry.standard import standard

ANHYDROUS = 3 / 192.124
MONOHYDRATE = 3 / 210.139

OLIVE, COCONUT, PALM, RAPESEED, SUNFLOWER, LARD = 190.0, 256.5, 199.5, 187.5, 190.5, 197.5
GOAT_MILK = {"water": 0.8703, "fat": 0.0414, "sugar": 0.0445, "fat_value": 225.0}


@dataclass(frozen=True)
class Example:
    """Inputs first: grams and mg KOH/g of each oil, superfat and water. Then the figures worked by hand."""

    oils: tuple[tuple[float, float], ...]
    superfat: float
    convention: Convention
    value: float
    alkali: Alkali = field(default_factory=Alkali)
    additions: tuple[Addition, ...] = ()
    liquids: tuple[Liquid, ...] = ()
    moles: float = nan
    """Demand of the oils, mol."""
    naoh: float = 0.0
    koh: float = 0.0
    water: float = nan
    strength: float = nan
    to_lye: float = nan
    of_oils: float = nan
    glycerol: float = nan
    batter: float | None = None

    def formula(self) -> Formula:
        return Formula(
            oils=tuple(
                Oil(f"oil-{i}", grams, value, value, value) for i, (grams, value) in enumerate(self.oils)
            ),
            alkali=self.alkali,
            superfat=self.superfat,
            water=Water(self.convention, self.value),
            additions=self.additions,
            liquids=self.liquids,
        )

    def figures(self) -> Figures:
        return weigh(self.formula())


def _five(convention: Convention, value: float, *worked: float) -> Example:
    """B5: one formula, its water by each convention."""
    water, strength, to_lye, of_oils, batter = worked
    return Example(
        ((550, RAPESEED), (250, COCONUT), (200, LARD)), 0.05, convention, value, Alkali(sodium_purity=0.99),
        moles=3.685015, naoh=141.4348, water=water, strength=strength, to_lye=to_lye, of_oils=of_oils,
        glycerol=107.47, batter=batter,
    )  # fmt: skip


EXAMPLES = {
    "A1 one oil": Example(
        ((1000, 190),), 0.05, "lye-strength", 0.33,
        moles=3.386471, naoh=128.68, water=261.25, strength=33.00, to_lye=2.030, of_oils=26.13,
        glycerol=98.76,
    ),
    "A2 three oils, water of oils": Example(
        ((500, 190), (300, 257), (200, 181)), 0.06, "of-oils", 0.33,
        moles=3.712642, naoh=139.59, water=330.00, strength=29.73, to_lye=2.364, of_oils=33.00,
        glycerol=107.13,
    ),
    "A3 two alkalis, KOH of 90 %": Example(
        ((700, 190), (300, 257)), 0.03, "to-lye", 2.2, Alkali(0.6, 0.4, 1.0, 0.9),
        moles=3.744724, naoh=87.17, koh=90.58, water=391.04, strength=31.25, to_lye=2.200, of_oils=39.10,
        glycerol=111.51,
    ),
    "A4 KOH alone, of 90 %": Example(
        ((800, 189), (200, 180)), 0.02, "to-lye", 3.0, Alkali(0.0, 1.0, 1.0, 0.9),
        moles=3.336565, koh=203.84, water=611.52, strength=25.00, to_lye=3.000, of_oils=61.15,
        glycerol=100.38,
    ),
    "A5 citric acid, NaOH of 98 %": Example(
        ((600, 190), (400, 257)), 0.05, "lye-strength", 0.35, Alkali(sodium_purity=0.98),
        additions=(Addition("citric-acid", 20.0, "lye", acid=ANHYDROUS),),
        moles=3.864142, naoh=162.57, water=301.91, strength=35.00, to_lye=1.857, of_oils=30.19,
        glycerol=112.69,
    ),
    "A6 a liquid in part of the water": Example(
        ((550, 190), (250, 257), (200, 181)), 0.05, "lye-strength", 0.33,
        liquids=(Liquid("drink", 80.0, 0.9),),
        moles=3.652933, naoh=138.80, water=281.81, strength=33.00, to_lye=2.030, of_oils=28.18,
        glycerol=106.53,
    ),
    "B1 olive alone, NaOH of 98.5 %": Example(
        ((750, OLIVE),), 0.04, "lye-strength", 0.32, Alkali(sodium_purity=0.985),
        moles=2.539853, naoh=99.01, water=210.39, strength=32.00, to_lye=2.1250, of_oils=28.05,
        glycerol=74.85,
    ),
    "B2 three oils, water to lye": Example(
        ((450, OLIVE), (250, COCONUT), (300, PALM)), 0.06, "to-lye", 2.1, Alkali(sodium_purity=0.99),
        moles=3.733585, naoh=141.79, water=297.76, strength=32.26, to_lye=2.100, of_oils=29.78,
        glycerol=107.74, batter=1439.55,
    ),
    "B3 two alkalis, both impure": Example(
        ((600, OLIVE), (250, COCONUT), (150, SUNFLOWER)), 0.04, "lye-strength", 0.31,
        Alkali(0.7, 0.3, 0.98, 0.90),
        moles=3.684124, naoh=101.04, koh=66.14, water=372.13, strength=31.00, to_lye=69 / 31, of_oils=37.21,
        glycerol=108.57,
    ),
    "B4 citric acid monohydrate": Example(
        ((500, OLIVE), (300, PALM), (200, COCONUT)), 0.05, "lye-strength", 0.33, Alkali(sodium_purity=0.99),
        additions=(Addition("citric-acid-monohydrate", 15.0, "lye", acid=MONOHYDRATE),),
        moles=3.674321, naoh=149.68, water=303.89, strength=33.00, to_lye=67 / 33, of_oils=30.39,
        glycerol=107.15,
    ),
    "B5 by lye strength": _five("lye-strength", 0.34, 274.55, 34.00, 1.9412, 27.45, 1415.98),
    "B5 by water to lye": _five("to-lye", 1.9, 268.73, 34.48, 1.9000, 26.87, 1410.16),
    "B5 by share of oils": _five("of-oils", 0.27, 270.00, 34.38, 1.9090, 27.00, 1411.43),
    "B6 half the water from goat's milk": Example(
        ((600, OLIVE), (250, COCONUT), (150, SUNFLOWER)), 0.05, "lye-strength", 0.33,
        Alkali(sodium_purity=0.99),
        liquids=(Liquid("goat-milk", 143.5430 / GOAT_MILK["water"], **GOAT_MILK),),  # 164.94 g
        moles=3.684124, naoh=141.40, water=287.09, strength=33.00, to_lye=67 / 33, of_oils=28.71,
        glycerol=107.44,  # not printed there: 3.499918 mol / 3 × 92.0938
    ),
}  # fmt: skip

EACH = pytest.mark.parametrize("name", EXAMPLES)
TO_GRAM = 0.0051
"""A hundredth of a gram or of a per cent, as printed: half of it, and a hair for the printed rounding."""

MOLES = 1.5e-6
"""Relative: the examples divide by 56.1056, the engine by the unrounded 56.10564; printed to 1e-6 mol."""


@EACH
def test_alkali_to_a_hundredth_of_a_gram(name: str) -> None:
    worked, figures = EXAMPLES[name], EXAMPLES[name].figures()
    assert demand(worked.formula().oils) == pytest.approx(worked.moles, rel=MOLES)
    assert figures.weights.sodium_hydroxide == pytest.approx(worked.naoh, abs=TO_GRAM)
    assert figures.weights.potassium_hydroxide == pytest.approx(worked.koh, abs=TO_GRAM)
    assert figures.superfat == pytest.approx(worked.superfat, abs=1e-12)


@EACH
def test_water_by_every_convention(name: str) -> None:
    worked, figures = EXAMPLES[name], EXAMPLES[name].figures()
    assert figures.water.total == pytest.approx(worked.water, abs=TO_GRAM)
    assert 100 * figures.lye_strength == pytest.approx(worked.strength, abs=TO_GRAM)
    assert figures.water_to_lye == pytest.approx(worked.to_lye, abs=6e-4)
    assert 100 * figures.water_of_oils == pytest.approx(worked.of_oils, abs=TO_GRAM)


@EACH
def test_glycerol_and_the_mass_balance(name: str) -> None:
    """Glycerol as worked; and what the oils and their pure alkali became weighs what they weighed."""
    worked, figures = EXAMPLES[name], EXAMPLES[name].figures()
    balance = figures.balance
    assert balance.glycerol == pytest.approx(worked.glycerol, abs=TO_GRAM)
    pure = figures.weights.sodium_hydroxide * worked.alkali.sodium_purity
    pure += figures.weights.potassium_hydroxide * worked.alkali.potassium_purity
    acids = sum(a.acid * a.grams for a in worked.additions)
    pure -= acids * (worked.alkali.sodium * c.NAOH + worked.alkali.potassium * c.KOH)
    came_out = balance.soap + balance.glycerol + balance.oil_left + balance.water_formed
    assert came_out == pytest.approx(figures.oils + pure, rel=0, abs=1e-9)
    assert balance.oil_left == pytest.approx(worked.superfat * figures.oils, rel=1e-12)


@pytest.mark.parametrize("name", [name for name, worked in EXAMPLES.items() if worked.batter])
def test_batter_of_the_examples_that_state_it(name: str) -> None:
    assert EXAMPLES[name].figures().batter == pytest.approx(EXAMPLES[name].batter, abs=TO_GRAM)


@EACH
def test_batter_is_all_that_goes_in(name: str) -> None:
    worked, figures = EXAMPLES[name], EXAMPLES[name].figures()
    extras = sum(a.grams for a in worked.additions) + sum(q.grams for q in worked.liquids)
    brought = sum(q.grams * q.water for q in worked.liquids)
    plain = figures.water.total - brought
    expected = sum(grams for grams, _ in worked.oils) + figures.weights.total + plain + extras
    assert figures.batter == pytest.approx(expected, rel=1e-12)


def test_a1_glycerol_from_the_demand() -> None:
    """3.217148 mol taken, a third of it glycerol: 1.072383 × 92.0938 = 98.76 g."""
    figures = EXAMPLES["A1 one oil"].figures()
    assert figures.weights.moles(Alkali()) == pytest.approx(3.217148, rel=MOLES)
    assert figures.balance.glycerol / c.GLYCEROL == pytest.approx(1.072383, rel=MOLES)


def test_a5_the_acid_in_moles() -> None:
    """20 g of citric acid take 0.312298 mol; 3.983233 mol in all."""
    worked = EXAMPLES["A5 citric acid, NaOH of 98 %"]
    assert acid(worked.additions) == pytest.approx(0.312298, abs=1e-6)
    assert worked.figures().weights.moles(worked.alkali) == pytest.approx(3.983233, rel=MOLES)


def test_a6_the_lye_in_plain_water_alone() -> None:
    """80 g of 90 % water bring 72.00 g; 209.81 g plain water; the lye in that alone is 39.82 %."""
    worked = EXAMPLES["A6 a liquid in part of the water"]
    figures = worked.figures()
    assert figures.water.liquids == pytest.approx(72.0)
    assert figures.water.plain == pytest.approx(209.81, abs=TO_GRAM)
    assert 100 * figures.lye_strength_dissolved == pytest.approx(39.82, abs=TO_GRAM)
    with_lye = replace(worked, liquids=(replace(worked.liquids[0], stage="lye"),)).figures()
    assert 100 * with_lye.lye_strength_dissolved == pytest.approx(33.0, abs=1e-9)


# A7: acidic groups and molar mass, then g NaOH and g KOH per g of acid, to four places.
ALKALI_PER_GRAM = [
    ("citric, anhydrous", 3, 192.124, 0.6246, 0.8761),
    ("citric, monohydrate", 3, 210.139, 0.5710, 0.8010),
    ("lactic", 1, 90.078, 0.4440, 0.6229),
    ("acetic", 1, 60.052, 0.6660, 0.9343),
    ("lauric", 1, 200.318, 0.1997, 0.2801),
    ("stearic", 1, 284.477, 0.1406, 0.1972),
    ("oleic", 1, 282.461, 0.1416, 0.1986),
]


@pytest.mark.parametrize(("name", "groups", "mass", "sodium", "potassium"), ALKALI_PER_GRAM)
def test_a7_alkali_per_gram_of_acid(
    name: str, groups: int, mass: float, sodium: float, potassium: float
) -> None:
    """A kilogram of the acid beside a kilogram of oil, against the oil alone."""
    oil = (Oil("oil", 1000.0, 190.0, 190.0, 190.0),)
    for alkali, expected in ((Alkali(), sodium), (Alkali(0.0, 1.0), potassium)):
        plain = Formula(oil, alkali, 0.05, Water("to-lye", 2.0))
        acid = replace(plain, additions=(Addition(name, 1000.0, acid=groups / mass),))
        more = weigh(acid).weights.total - weigh(plain).weights.total
        assert more / 1000.0 == pytest.approx(expected, abs=5e-5)


@pytest.mark.parametrize(("grams", "oils"), [(85.0, 1275.0), (85.05, 1275.73)])
def test_a8_ready_made_soap(grams: float, oils: float) -> None:
    """85 g per 1275 g is 3 oz per 45 oz: common practice, no source. It adds mass and no demand."""
    cap = standard().additions["ready-made-soap"].cap
    assert 1000.0 * grams / oils == pytest.approx(cap, abs=0.01)
    plain = Formula((Oil("oil", oils, 190.0, 190.0, 190.0),), Alkali(), 0.05, Water("of-oils", 0.3))
    soap = replace(plain, additions=(Addition("ready-made-soap", grams),))
    before, after = weigh(plain), weigh(soap)
    assert after.weights == before.weights
    assert after.superfat == before.superfat
    assert after.batter - before.batter == pytest.approx(grams)


def test_a8_ounces_and_grams_are_one_rule() -> None:
    """3 oz is 85.05 g and 45 oz 1275.73 g, by the international pound."""
    ounce = 28.349523125
    assert 3 * ounce == pytest.approx(85.05, abs=TO_GRAM)
    assert 45 * ounce == pytest.approx(1275.73, abs=TO_GRAM)
    assert standard().additions["ready-made-soap"].cap == pytest.approx(1000.0 * 3 / 45, abs=0.01)


def test_a9_as_weighed_and_by_nature() -> None:
    """500 g of an oil of 190 (186 to 194) at 5 %: 64.3383 g, and on a scale of whole grams 64 g and 5.500 %.
    If the oil is really 186 the superfat is 2.957 %, if 194 it is 6.959 %."""
    oil = Oil("oil", 500.0, 190.0, 186.0, 194.0)
    figures = weigh(Formula((oil,), Alkali(), 0.05, Water("lye-strength", 0.33), scale_step=1.0))
    assert figures.weights.sodium_hydroxide == pytest.approx(64.3383, abs=5e-5)
    assert 100 * figures.superfat_as_weighed == pytest.approx(5.500, abs=1e-3)
    for band in (figures.bands.worst, figures.bands.likely):
        assert 100 * band.low == pytest.approx(2.957, abs=5e-4)
        assert 100 * band.high == pytest.approx(6.959, abs=5e-4)


def test_b1_strength_as_pure_alkali() -> None:
    """97.5233 g pure in 99.0084 g as weighed: a chemist's strength of 31.52 %."""
    worked = EXAMPLES["B1 olive alone, NaOH of 98.5 %"]
    figures = worked.figures()
    pure = figures.weights.sodium_hydroxide * worked.alkali.sodium_purity
    assert pure == pytest.approx(97.5233, abs=5e-5)
    assert figures.weights.sodium_hydroxide == pytest.approx(99.0084, abs=5e-5)
    assert 100 * pure / (figures.weights.total + figures.water.total) == pytest.approx(31.52, abs=TO_GRAM)


def test_b2_value_of_the_blend() -> None:
    """85.5000 + 64.1250 + 59.8500 g KOH for 1000 g: 209.475."""
    figures = EXAMPLES["B2 three oils, water to lye"].figures()
    assert figures.chemistry.saponification_value == pytest.approx(209.475, abs=1e-9)


# B3: 70 to 30 read in other ways: by mass of pure alkali, and by mass as weighed.
OTHER_READINGS = [(1.0, 1.0, 110.57, 51.60), (0.98, 0.90, 112.72, 48.31)]


@pytest.mark.parametrize(("sodium_counts", "potassium_counts", "naoh", "koh"), OTHER_READINGS)
def test_b3_seventy_to_thirty_by_mass(
    sodium_counts: float, potassium_counts: float, naoh: float, koh: float
) -> None:
    """Shares by mass turned into shares by equivalents give the weights worked for that reading."""
    sodium, potassium = 0.7 * sodium_counts / c.NAOH, 0.3 * potassium_counts / c.KOH
    whole = sodium + potassium
    worked = replace(
        EXAMPLES["B3 two alkalis, both impure"], alkali=Alkali(sodium / whole, potassium / whole, 0.98, 0.90)
    )
    weights = worked.figures().weights
    assert weights.sodium_hydroxide == pytest.approx(naoh, abs=TO_GRAM)
    assert weights.potassium_hydroxide == pytest.approx(koh, abs=TO_GRAM)


def test_b4_faults_with_the_acid() -> None:
    """Without the acid 141.02 g NaOH. If the alkali is not raised the superfat is 10.83 %; if the acid
    is taken for the anhydrous one, 150.49 g are weighed and the true superfat is 4.45 %."""
    worked = EXAMPLES["B4 citric acid monohydrate"]
    asked, taken = demand(worked.formula().oils), acid(worked.additions)
    assert taken == pytest.approx(0.214144, abs=1e-6)
    without = replace(worked, additions=()).figures().weights
    assert without.total == pytest.approx(141.02, abs=TO_GRAM)
    assert worked.figures().weights.total - without.total == pytest.approx(8.65, abs=TO_GRAM)
    not_raised = superfat(without.moles(worked.alkali) - taken, asked)
    assert 100 * not_raised == pytest.approx(10.83, abs=TO_GRAM)
    wrong = replace(worked, additions=(Addition("citric-acid", 15.0, acid=ANHYDROUS),)).figures().weights
    assert wrong.total == pytest.approx(150.49, abs=TO_GRAM)
    true = superfat(wrong.moles(worked.alkali) - taken, asked)
    assert 100 * true == pytest.approx(4.45, abs=TO_GRAM)


def test_b6_milk() -> None:
    """164.94 g of goat's milk bring half the water and 6.83 g fat; the lye in plain water
    is 49.62 %; with the milk fat (225 mg KOH/g, from memory) counted among the oils the true superfat is
    5.70 %."""
    figures = EXAMPLES["B6 half the water from goat's milk"].figures()
    assert figures.liquids == pytest.approx(164.94, abs=TO_GRAM)
    assert figures.water.plain == pytest.approx(143.54, abs=TO_GRAM)
    assert figures.water.liquids == pytest.approx(143.54, abs=TO_GRAM)
    assert figures.liquids_fat == pytest.approx(6.83, abs=TO_GRAM)
    assert 100 * figures.lye_strength_dissolved == pytest.approx(49.62, abs=TO_GRAM)
    assert 100 * figures.superfat == pytest.approx(5.0)
    assert 100 * figures.superfat_with_liquids_fat == pytest.approx(5.70, abs=TO_GRAM)


def test_b6_milk_fat_counted_and_superfat_kept() -> None:
    """The fat as one more oil, 6.8283 g of 225: NaOH 142.45 g and 289.22 g of water."""
    worked = EXAMPLES["B6 half the water from goat's milk"]
    counted = replace(worked, oils=(*worked.oils, (6.8283, 225.0))).figures()
    assert counted.weights.total == pytest.approx(142.45, abs=TO_GRAM)
    assert counted.water.total == pytest.approx(289.22, abs=TO_GRAM)


def test_b6_milk_taken_for_water() -> None:
    """143.54 g of milk for as much water: 18.62 g of water are missing, and the lye is 34.50 % strong."""
    figures = EXAMPLES["B6 half the water from goat's milk"].figures()
    half = figures.water.total / 2
    missing = half * (1 - GOAT_MILK["water"])
    assert missing == pytest.approx(18.62, abs=TO_GRAM)
    true = water_of.strength(figures.weights.total, figures.water.total - missing)
    assert 100 * true == pytest.approx(34.50, abs=TO_GRAM)


# 1000 g of oils at 0.92 g/ml and 128.68 g NaOH: grams of water, strength %, ml, g/ml of the batter and
# oil g/ml. Densities of the lye: International Critical Tables as reprinted (second-hand), between its
# rows linear.
VOLUMES = [
    (193.02, 40.00, 1311.9, 1.008, 0.762),
    (261.25, 33.00, 1373.8, 1.012, 0.728),
    (380.00, 25.30, 1485.3, 1.016, 0.673),
]


@pytest.mark.parametrize(("water", "strength", "volume", "density", "oil"), VOLUMES)
def test_volume_of_the_batter(
    water: float, strength: float, volume: float, density: float, oil: float
) -> None:
    value = 128.68 / 0.95 / c.NAOH * c.KOH
    oils = (Oil("oil", 1000.0, value, value, value, density=0.92),)
    formula = Formula(oils, Alkali(), 0.05, Water("to-lye", water / 128.68))
    figures = weigh(formula)
    unknown = replace(formula, oils=(replace(oils[0], density=None),))
    assert weigh(unknown).batter_ml == figures.batter_ml  # 0.92 where an oil's own is not known
    assert figures.weights.total == pytest.approx(128.68, abs=1e-9)
    assert 100 * figures.lye_strength == pytest.approx(strength, abs=TO_GRAM)
    assert figures.batter_ml == pytest.approx(volume, abs=0.1)
    assert figures.batter / figures.batter_ml == pytest.approx(density, abs=5.5e-4)
    assert figures.oils / figures.batter_ml == pytest.approx(oil, abs=5.5e-4)


@pytest.mark.parametrize(("value", "strength"), [(190.0, 28.1), (256.5, 34.5)])
def test_share_of_oils_is_blind_to_the_alkali(value: float, strength: float) -> None:
    """33 % of oils at 5 % superfat: a 28.1 % lye with an oil of 190, a 34.5 % lye with coconut oil alone."""
    figures = Example(((1000, value),), 0.05, "of-oils", 0.33).figures()
    assert 100 * figures.lye_strength == pytest.approx(strength, abs=0.051)
