"""The sums of a class: shopping, scaling, heat."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.book.classes import ClassPlan, sized
from saponary.lye import lesson
from saponary.lye.alkali import Weights
from saponary.lye.density import lye_millilitres
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Liquid
from saponary.lye.lesson import Weighing
from saponary.quantity.rounding import to_step
from support import PLAIN, prove_one

(BUILT,) = [one.computed.resolved for one in prove_one(PLAIN).recipes]
SHELF = prove_one(PLAIN).book.pantry

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=60)

names = st.sampled_from(["olive", "coconut", "kaolin", "water", "sodium-hydroxide"])
batch = st.lists(
    st.builds(Weighing, st.just("oil"), names, st.integers(1, 5000).map(float)),
    min_size=1,
    max_size=6,
    unique_by=lambda each: each.id,
)
batches = st.lists(st.tuples(batch, st.integers(1, 30)), min_size=1, max_size=5)


@REPEATABLE
@given(
    batches,
    st.floats(0, 0.5),
    st.dictionaries(names, st.integers(10, 5000).map(float)),
)
def test_the_shopping_list_is_the_sum_over_students_and_recipes(
    lots: list[tuple[list[Weighing], int]], spare: float, packs: dict[str, float]
) -> None:
    bought = {each.id: each for each in lesson.shopping(lots, spare, packs)}
    for name in {each.id for made, _ in lots for each in made}:
        needed = sum(count * each.grams for made, count in lots for each in made if each.id == name)
        line = bought[name]
        assert line.needed == pytest.approx(needed)
        assert line.wanted == pytest.approx(needed * (1 + spare))
        if name in packs:
            assert line.packs * packs[name] >= line.wanted * (1 - 1e-9)
            assert (line.packs - 1) * packs[name] < line.wanted * (1 + 1e-9)
            assert line.left == pytest.approx(line.packs * packs[name] - needed)
        else:
            assert line.packs == 0
    assert len(bought) == len({each.id for made, _ in lots for each in made})


@REPEATABLE
@given(st.floats(200, 20_000), st.integers(1, 12), st.sampled_from([0.1, 1.0]))
def test_scaled_weights_give_the_nominal_superfat_within_the_printed_band(
    oils: float, students: int, step: float
) -> None:
    plan = ClassPlan.model_validate(
        {"title": "A day", "students": "4", "oils": f"{oils:.1f} g", "recipes": ["plain"]}
    )
    made = sized(plan, BUILT, SHELF, students)
    assert made is not None
    assert made.formula.oils_grams == pytest.approx(students * float(f"{oils:.1f}"))
    figures = weigh(made.formula)
    assert figures.superfat == pytest.approx(0.05)
    assert figures.bands.likely.low <= figures.superfat_as_weighed <= figures.bands.likely.high
    put = lesson.weighings(made.formula, figures, lambda grams: to_step(grams, step))
    ids = [each.id for each in put]
    assert ids == ["olive", "coconut", "sunflower-high-oleic", "sodium-hydroxide", "water"]
    assert sum(each.grams for each in put[:3]) == pytest.approx(made.formula.oils_grams, abs=3 * step)


def test_a_mould_is_filled_to_what_is_asked() -> None:
    plan = ClassPlan.model_validate(
        {"title": "A day", "students": "4", "mould": "box", "to": "90 %", "recipes": ["plain"]}
    )
    assert sized(plan, BUILT, SHELF) is None
    factor = lesson.to_fill(BUILT.formula, 500.0)
    assert weigh(BUILT.formula.scaled(factor)).loaf_ml == pytest.approx(500.0)


def test_heat_agrees_with_the_sum_worked_by_hand() -> None:
    """128.68 g NaOH in 261.25 g water: 116.2 kJ into 1364.8 J/K."""
    warm = lesson.rise(Weights(128.68, 0.0), Alkali(), 261.25)
    assert warm.degrees == pytest.approx(85.1, abs=0.2)
    assert not warm.at_most


@pytest.mark.parametrize(
    ("strength", "degrees"), [(0.25, 70), (0.28, 77), (0.30, 81), (0.33, 85), (0.35, 87), (0.40, 88)]
)
def test_heat_by_strength(strength: float, degrees: float) -> None:
    warm = lesson.rise(Weights(100.0 * strength, 0.0), Alkali(), 100.0 * (1 - strength))
    assert warm.degrees == pytest.approx(degrees, abs=0.7)


def test_heat_of_potassium_is_an_upper_bound_and_says_so() -> None:
    assert lesson.rise(Weights(0.0, 100.0), Alkali(0.0, 1.0), 300.0).at_most
    assert lesson.rise(Weights(0.0, 0.0), Alkali(), 300.0).degrees == 0.0


@REPEATABLE
@given(st.floats(1, 5000), st.floats(1.0, 4.0))
def test_a_jug_holds_twice_its_lye(alkali: float, ratio: float) -> None:
    weights = Weights(alkali, 0.0)
    held = lesson.container(weights, alkali * ratio)
    twice = 2 * lye_millilitres(weights, alkali * ratio)
    assert twice * (1 - 1e-9) <= held < twice + 100
    assert held % 100 == 0


@pytest.mark.parametrize(
    ("moles", "kilojoules"),
    [
        (3, 28.87),
        (4, 34.43),
        (5, 37.74),
        (10, 42.51),
        (20, 42.84),
        (4.5, 36.085),
        (15, 42.675),
        (2, 28.87),
        (40, 42.84),
    ],
)
def test_heat_by_moles_of_water(moles: float, kilojoules: float) -> None:
    """The table (from memory), straight between its points, and level beyond its ends."""
    water = moles * 18.0153
    warm = lesson.rise(Weights(39.9971, 0.0), Alkali(), water)
    assert warm.degrees == pytest.approx(1000 * kilojoules / (3.5 * (39.9971 + water)), rel=1e-5)


def test_potassium_is_counted_as_if_in_much_water() -> None:
    """57.61 kJ/mol at infinite dilution, CRC Handbook; 1 mol of each, purities 98 and 90 %."""
    weights = Weights(39.9971 / 0.98, 56.1056 / 0.9)
    warm = lesson.rise(weights, Alkali(0.5, 0.5, 0.98, 0.9), 10 * 18.0153)
    heat = 37.74 + 57.61
    assert warm.degrees == pytest.approx(1000 * heat / (3.5 * (weights.total + 180.153)), rel=1e-5)


def test_lye_without_water_has_no_rise() -> None:
    assert lesson.rise(Weights(10.0, 0.0), Alkali(), 0.0).degrees == 0.0


def test_a_purchase_without_a_pack_leaves_the_spare() -> None:
    (line,) = lesson.shopping([([Weighing("oil", "olive", 100.0)], 3)], 0.1, {})
    assert (line.needed, line.pack, line.packs) == (300.0, None, 0)
    assert line.left == pytest.approx(30.0)


def test_a_jug_of_a_full_hundred_is_not_made_larger() -> None:
    """Water alone: 2 x 150 ml is 300 ml, and a hair more is 400 ml."""
    assert lesson.container(Weights(0.0, 0.0), 150.0) == 300.0
    assert lesson.container(Weights(0.0, 0.0), 150.1) == 400.0


def test_half_a_gram_is_weighed_and_what_is_not_there_is_not() -> None:
    """So much milk that it brings more water than the lye takes, and a salt of no weight."""
    formula = replace(
        BUILT.formula,
        liquids=(Liquid("milk", 500.0, 0.9),),
        additions=(Addition("saffron", 0.5), Addition("salt", 0.0)),
    )
    figures = weigh(formula)
    assert figures.water.plain < 0
    put = {each.id: each.grams for each in lesson.weighings(formula, figures, lambda grams: grams)}
    assert list(put) == ["olive", "coconut", "sunflower-high-oleic", "sodium-hydroxide", "milk", "saffron"]
    assert put["saffron"] == 0.5
