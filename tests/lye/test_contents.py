"""What is in the batch, as charged and as found, against mass balances worked by hand.

Each case writes its arithmetic out: demand is grams times saponification value over 1000 over
56.1056 mol, soap takes what is met of the oil and its alkali and gives off a third of a mole of
glycerol (92.0938 g/mol) per mole. Molar masses are checked against periodictable and molmass.
"""

from __future__ import annotations

from collections.abc import Sequence

import molmass
import periodictable
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.lye.contents import Part, as_charged, as_found
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water

NAOH, KOH, GLYCEROL, WATER = 39.9971, 56.1056, 92.0938, 18.0153


def oil(name: str, grams: float, value: float, **more: object) -> Oil:
    return Oil(name, grams, value, value, value, **more)  # type: ignore[arg-type]


def grams(parts: Sequence[Part]) -> dict[tuple[str, str, str], float]:
    return {(p.kind, p.id, p.metal or ""): p.grams for p in parts}


THREE = Formula(
    oils=(oil("olive", 450, 190), oil("coconut", 250, 256.5), oil("palm", 300, 199.5)),
    alkali=Alkali(sodium_purity=0.99),
    superfat=0.06,
    water=Water("to-lye", 2.1),
)


def test_three_oils_as_charged() -> None:
    found = grams(as_charged(THREE, weigh(THREE)))
    # 209.475 g KOH / 56.1056 = 3.733585 mol; x 0.94 x 39.9971 / 0.99 = 141.79; x 2.1 = 297.76.
    assert found == pytest.approx(
        {
            ("oil", "olive", ""): 450,
            ("oil", "coconut", ""): 250,
            ("oil", "palm", ""): 300,
            ("alkali", "sodium-hydroxide", "sodium"): 141.79,
            ("water", "water", ""): 297.76,
        },
        abs=0.005,
    )


def test_three_oils_as_found() -> None:
    found = grams(as_found(THREE, weigh(THREE)))
    # Olive: 0.94 x 450 = 423; 0.94 x 85.5/56.1056 = 1.432474 mol; 423 + 57.2948 - 43.9741 = 436.32.
    # Coconut: 235 + 42.9711 - 32.9806 = 244.99. Palm: 282 + 40.1064 - 30.7819 = 291.32.
    assert found == pytest.approx(
        {
            ("soap", "olive", "sodium"): 436.32,
            ("soap", "coconut", "sodium"): 244.99,
            ("soap", "palm", "sodium"): 291.32,
            ("glycerol", "glycerol", ""): 107.74,
            ("water", "water", ""): 297.76,
            ("oil", "olive", ""): 27,
            ("oil", "coconut", ""): 15,
            ("oil", "palm", ""): 18,
            ("impurity", "sodium-hydroxide", "sodium"): 1.4179,
        },
        abs=0.01,
    )
    # As printed, to the hundredth: 436.32 + 291.32 + 244.99 + 107.74 + 60 = 1000 + 140.37 pure alkali.
    soap_and_glycerol = sum(
        p.grams for p in as_found(THREE, weigh(THREE)) if p.kind in ("soap", "glycerol", "oil")
    )
    assert soap_and_glycerol == pytest.approx(1140.37, abs=0.005)


def test_water_of_the_cured_bar() -> None:
    """Dry matter 1439.55 - 297.76 = 1141.79 g; at 10 % water the bar is 1141.79/0.9 and holds 126.87 g."""
    parts = as_found(THREE, weigh(THREE), 0.10)
    assert grams(parts)["water", "water", ""] == pytest.approx(1141.79 / 9, abs=0.005)
    assert grams(parts)["water", "water", ""] == pytest.approx(0.1 * sum(p.grams for p in parts), rel=1e-12)


def test_no_bar_takes_up_water() -> None:
    assert as_found(THREE, weigh(THREE), 0.9) == as_found(THREE, weigh(THREE))
    assert as_found(THREE, weigh(THREE), 1.0) == as_found(THREE, weigh(THREE))


def test_two_alkalis_make_two_soaps_by_equivalents() -> None:
    formula = Formula(
        oils=(oil("olive", 600, 190), oil("coconut", 250, 256.5), oil("sunflower", 150, 190.5)),
        alkali=Alkali(0.7, 0.3, 0.98, 0.90),
        superfat=0.04,
        water=Water("lye-strength", 0.31),
    )
    found = grams(as_found(formula, weigh(formula)))
    # Olive: 0.96 x 114/56.1056 = 1.950607 mol; acids 576 - 1.950607/3 x 92.0938 = 516.120 g.
    # Sodium: 0.7 x 516.120 + 0.7 x 1.950607 x 39.9971 = 361.284 + 54.613 = 415.897.
    # Potassium: 0.3 x 516.120 + 0.3 x 1.950607 x 56.1056 = 154.836 + 32.832 = 187.668.
    assert found["soap", "olive", "sodium"] == pytest.approx(415.897, abs=0.002)
    assert found["soap", "olive", "potassium"] == pytest.approx(187.668, abs=0.002)
    assert found["glycerol", "glycerol", ""] == pytest.approx(108.57, abs=0.005)
    # Impurities: 2 % of 101.04 g and 10 % of 66.14 g.
    assert found["impurity", "sodium-hydroxide", "sodium"] == pytest.approx(2.0209, abs=0.001)
    assert found["impurity", "potassium-hydroxide", "potassium"] == pytest.approx(6.6144, abs=0.001)


def test_an_acid_becomes_its_salt() -> None:
    acid = Addition("citric-acid-monohydrate", 15, "lye", acid=3 / 210.139)
    formula = Formula(
        oils=(oil("olive", 500, 190), oil("palm", 300, 199.5), oil("coconut", 200, 256.5)),
        alkali=Alkali(sodium_purity=0.99),
        superfat=0.05,
        water=Water("lye-strength", 0.33),
        additions=(acid,),
    )
    found = grams(as_found(formula, weigh(formula)))
    # 15/210.139 = 0.0713814 mol of trisodium citrate, 258.069 g/mol: 18.42 g, and its crystal water, 1.29 g.
    assert found["salt", acid.id, "sodium"] == pytest.approx(0.0713814 * (258.069 + WATER), abs=0.005)
    # 303.89 g of water, and 0.214144 mol from acid and alkali: 3.86 g.
    assert found["water", "water", ""] == pytest.approx(303.89 + 0.214144 * WATER, abs=0.01)
    assert found["glycerol", "glycerol", ""] == pytest.approx(107.15, abs=0.01)


def test_vinegar_becomes_acetate_and_water() -> None:
    """60 g at 5 %: 3 g of acid, 0.049957 mol; 3 + 0.049957 x (39.9971 - 18.0153) = 4.098 g of acetate."""
    vinegar = Liquid("vinegar", 60, water=0.95, acid=0.05 / 60.052)
    formula = Formula((oil("olive", 1000, 190),), Alkali(), 0.05, Water("lye-strength", 0.33), (vinegar,))
    figures = weigh(formula)
    found = grams(as_found(formula, figures))
    assert found["salt", "vinegar", "sodium"] == pytest.approx(4.0982, abs=0.0005)
    assert found["water", "water", ""] == pytest.approx(
        figures.water.plain + 57 + 0.049957 * WATER, abs=0.001
    )
    assert ("liquid", "vinegar", "") not in found


def test_milk_dries_with_the_rest_of_the_water() -> None:
    milk = Liquid("goat-milk", 164.94, water=0.8703, fat=0.0414, sugar=0.0445)
    formula = Formula(
        (oil("olive", 600, 190), oil("coconut", 250, 256.5), oil("sunflower", 150, 190.5)),
        Alkali(sodium_purity=0.99),
        0.05,
        Water("lye-strength", 0.33),
        (milk,),
    )
    figures = weigh(formula)
    poured = grams(as_found(formula, figures))
    assert poured["liquid", "goat-milk", ""] == pytest.approx(164.94)
    # Water poured 287.09; dry 1000 + 141.40 + 21.39 = 1162.79; cured at 10 %: 129.20 of water, 45.00 % of it left.
    # Milk 21.39 + 0.4500 x 143.55 = 86.00; plain water 0.4500 x 143.54 = 64.60.
    cured = grams(as_found(formula, figures, 0.10))
    assert cured["liquid", "goat-milk", ""] == pytest.approx(86.00, abs=0.02)
    assert cured["water", "water", ""] == pytest.approx(64.60, abs=0.02)


def test_free_acids_give_water_and_waxes_keep_their_alcohol() -> None:
    formula = Formula(
        (
            oil("olive", 700, 190),
            oil("stearic-acid", 250, 200, ester="acid"),
            oil("beeswax", 50, 95, ester="wax"),
        ),
        Alkali(),
        0.05,
        Water("of-oils", 0.30),
    )
    found = grams(as_found(formula, weigh(formula)))
    # Stearic acid first and all of it: 50/56.1056 = 0.891177 mol; 250 + 35.6445 - 16.0548 = 269.590 g.
    # 5 % of 187.75 g KOH are left of the 137.75 g that the others ask for: 6.8149 %.
    # Beeswax: 0.931851 x 4.75/56.1056 = 0.078892 mol; 46.5926 + 3.1555 = 49.748 g.
    assert found["soap", "stearic-acid", "sodium"] == pytest.approx(269.590, abs=0.002)
    assert found["soap", "beeswax", "sodium"] == pytest.approx(49.748, abs=0.002)
    # Glycerol from olive alone: 0.931851 x 133/56.1056 / 3 x 92.0938 = 67.811 g.
    assert found["glycerol", "glycerol", ""] == pytest.approx(67.811, abs=0.002)
    assert found["water", "water", ""] == pytest.approx(300 + 16.0548, abs=0.002)


def test_alkali_that_finds_no_oil_stays() -> None:
    """Superfat -2 %: 0.02 x 190/56.1056 x 39.9971 = 2.709 g of sodium hydroxide over."""
    formula = Formula((oil("olive", 1000, 190),), Alkali(), -0.02, Water("of-oils", 0.30))
    found = grams(as_found(formula, weigh(formula)))
    assert found["alkali", "sodium-hydroxide", "sodium"] == pytest.approx(2.709, abs=0.001)
    assert ("oil", "olive", "") not in found


def test_without_oils_all_free_alkali_stays() -> None:
    """10 g with 0.01 mol/g of sodium hydroxide: 0.1 mol, 3.99971 g, and 6.00029 g of the rest."""
    ash = Addition("ash", 10.0, base=0.01, base_of="sodium")
    formula = Formula((), Alkali(), 0.05, Water("of-oils", 0.30), additions=(ash,))
    found = grams(as_found(formula, weigh(formula)))
    assert found == {
        ("alkali", "sodium-hydroxide", "sodium"): pytest.approx(3.99971, abs=1e-5),
        ("addition", "ash", ""): pytest.approx(6.00029, abs=1e-5),
    }


def test_infusions_are_merged_into_their_carrier_and_named() -> None:
    plain, soaked = oil("olive", 600, 190), oil("olive", 400, 190, infused_with="alkanet")
    formula = Formula((plain, soaked), Alkali(), 0.05, Water("of-oils", 0.30))
    figures = weigh(formula)
    assert as_charged(formula, figures)[0] == Part("oil", "olive", 1000, None, ("alkanet",))
    found = [p for p in as_found(formula, figures) if p.id == "olive"]
    assert [(p.kind, p.infused_with) for p in found] == [("soap", ("alkanet",)), ("oil", ("alkanet",))]


def test_glycerol_per_gram_of_sodium_hydroxide() -> None:
    """One mole of glycerol for three of alkali, with other people's atomic weights."""
    formula = Formula((oil("olive", 1000, 190),), Alkali(), 0.0, Water("of-oils", 0.30))
    figures = weigh(formula)
    ours = grams(as_found(formula, figures))["glycerol", "glycerol", ""] / figures.weights.sodium_hydroxide
    by_tables = periodictable.formula("C3H8O3").mass / (3 * periodictable.formula("NaOH").mass)
    by_weights = molmass.Formula("C3H8O3").mass / (3 * molmass.Formula("NaOH").mass)
    assert ours == pytest.approx(by_tables, rel=2e-5)
    assert ours == pytest.approx(by_weights, rel=2e-5)
    assert ours == pytest.approx(0.76750, abs=5e-6)


REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=150)

oils = st.lists(
    st.builds(
        lambda name, grams, value, ester, soaked: oil(name, grams, value, ester=ester, infused_with=soaked),
        st.sampled_from(["olive", "coconut", "palm", "beeswax"]),
        st.floats(0.0, 2000.0),
        st.floats(80.0, 350.0),
        st.sampled_from(["triglyceride", "acid", "wax"]),
        st.sampled_from([None, "alkanet"]),
    ),
    min_size=1,
    max_size=5,
)
liquids = st.builds(
    Liquid,
    st.sampled_from(["milk", "vinegar"]),
    st.floats(0, 80),
    st.floats(0, 1),
    acid=st.sampled_from([0.0, 0.0008]),
)
additions = st.builds(
    Addition,
    st.sampled_from(["kaolin", "citric-acid", "salt"]),
    st.floats(0, 60),
    st.sampled_from(["lye", "trace", "pour"]),
    acid=st.sampled_from([0.0, 0.015]),
    base=st.sampled_from([0.0, 0.001]),
    water=st.sampled_from([0.0, 0.4]),
)
formulas = st.builds(
    Formula,
    oils.map(tuple),
    st.builds(
        lambda na, *pure: Alkali(na, 1 - na, *pure), st.floats(0, 1), st.floats(0.8, 1), st.floats(0.8, 1)
    ),
    st.floats(-0.05, 0.3),
    st.builds(Water, st.just("lye-strength"), st.floats(0.2, 0.5)),
    st.lists(liquids, max_size=2).map(tuple),
    st.lists(additions, max_size=4).map(tuple),
)


@REPEATABLE
@given(formulas)
def test_both_lists_close_to_the_batch(formula: Formula) -> None:
    figures = weigh(formula)
    whole = figures.loaf
    assert sum(p.grams for p in as_charged(formula, figures)) == pytest.approx(whole, rel=1e-9, abs=1e-9)
    assert sum(p.grams for p in as_found(formula, figures)) == pytest.approx(whole, rel=1e-9, abs=1e-9)


@pytest.mark.slow
@REPEATABLE
@given(formulas)
def test_parts_agree_with_the_balance_of_the_bar(formula: Formula) -> None:
    figures = weigh(formula)
    parts = as_found(formula, figures)
    sums = {kind: sum(p.grams for p in parts if p.kind == kind) for kind in ("soap", "glycerol", "oil")}
    balance = figures.balance
    expected = {"soap": balance.soap, "glycerol": balance.glycerol, "oil": balance.oil_left}
    assert sums == pytest.approx(expected, rel=1e-9, abs=1e-9)


@pytest.mark.slow
@REPEATABLE
@given(formulas, st.floats(0.0, 0.3))
def test_drying_takes_water_alone(formula: Formula, left: float) -> None:
    figures = weigh(formula)
    poured, cured = grams(as_found(formula, figures)), grams(as_found(formula, figures, left))
    for key, weight in poured.items():
        if key[0] in ("soap", "glycerol", "oil", "salt", "alkali", "impurity"):
            assert cured[key] == weight


def test_the_fresh_bar_holds_the_water_that_acids_make() -> None:
    """13.5 g of citric acid at 192.124 g/mol give three times as many moles of water: 3.80 g."""
    acid = Addition("citric-acid", 13.5, acid=3 / 192.124)
    plain, sour = (
        Formula((oil("olive", 900, 190),), Alkali(), 0.05, Water("of-oils", 0.30), additions=extra)
        for extra in ((), (acid,))
    )
    made = weigh(sour)
    assert made.fresh_water - weigh(plain).fresh_water == pytest.approx(3.80, abs=0.005)
    assert made.fresh_water == pytest.approx(grams(as_found(sour, made))["water", "water", ""], rel=1e-9)
