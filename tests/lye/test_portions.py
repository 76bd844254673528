"""Portions sum to the batch, in one pot split at trace and in pots of their own.

Volumes sum too, in separate pots as in one: every pot takes of one lye solution, so its strength,
and with it the volume of a gram of it, is the same everywhere.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.lye import constants as c
from saponary.lye.alkali import acid, demand
from saponary.lye.figures import Figures, weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Portion, Water
from saponary.lye.scale import superfat_as_weighed

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=30)
NAMES = ("chalk", "ochre", "slate", "rust")


@st.composite
def blends(draw: st.DrawFn, grams: float, tag: str) -> tuple[Oil, ...]:
    parts = draw(st.lists(st.integers(1, 20), min_size=1, max_size=3))
    whole = sum(parts)
    return tuple(
        Oil(
            f"{tag}-{i}",
            grams * part / whole,
            draw(st.floats(130.0, 260.0)),
            120.0,
            270.0,
            ester=draw(st.sampled_from(["triglyceride", "acid", "wax"])),
            density=draw(st.sampled_from([None, 0.9, 0.96])),
        )
        for i, part in enumerate(parts)
    )


@st.composite
def batches(draw: st.DrawFn, separate: bool) -> Formula:
    parts = draw(st.lists(st.integers(1, 9), min_size=1, max_size=4))
    shares = [part / sum(parts) for part in parts]
    total = draw(st.floats(200.0, 5000.0))
    names = NAMES[: len(shares)]
    if separate:
        own = [draw(blends(total * share, name)) for name, share in zip(names, shares, strict=True)]
        portions = tuple(Portion(*each) for each in zip(names, shares, own, strict=True))
        oils = tuple(oil for pot in own for oil in pot)
    else:
        portions = tuple(Portion(*each) for each in zip(names, shares, strict=True))
        oils = draw(blends(total, "oil"))
    where = st.sampled_from([None, *names])
    additions = tuple(
        Addition(
            f"addition-{i}",
            draw(st.floats(0.0, 0.03)) * total,
            portion=draw(where),
            acid=draw(st.sampled_from([0.0, 0.0156, 0.0005])),
            displaces=draw(st.sampled_from([None, 2.6])),
        )
        for i in range(draw(st.integers(0, 3)))
    )
    liquids = tuple(
        Liquid(
            f"liquid-{i}",
            draw(st.floats(0.0, 0.04)) * total,
            draw(st.floats(0.5, 1.0)),
            portion=draw(where),
            acid=draw(st.sampled_from([0.0, 0.0008])),
            density=draw(st.sampled_from([None, 1.03])),
        )
        for i in range(draw(st.integers(0, 2)))
    )
    sodium = draw(st.sampled_from([1.0, 0.6, 0.0]))
    return Formula(
        oils,
        Alkali(sodium, 1 - sodium, 0.98, 0.9),
        draw(st.floats(0.0, 0.1)),
        Water("lye-strength", draw(st.floats(0.25, 0.4))),
        liquids,
        additions,
        portions,
        separate,
    )


def assert_sums(figures: Figures) -> None:
    parts = figures.portions

    def same(each: list[float], whole: float) -> None:
        assert sum(each) == pytest.approx(whole, rel=1e-9, abs=1e-9)

    same([p.share for p in parts], 1.0)
    same([p.oils_grams for p in parts], figures.oils)
    same([p.weights.sodium_hydroxide for p in parts], figures.weights.sodium_hydroxide)
    same([p.weights.potassium_hydroxide for p in parts], figures.weights.potassium_hydroxide)
    same([p.plain_water for p in parts], figures.water.plain)
    same([p.water for p in parts], figures.water.total)
    same([p.lye_solution for p in parts], figures.weights.total + figures.water.plain)
    same([q.grams for p in parts for q in p.liquids], figures.liquids)
    same([a.grams for p in parts for a in p.additions], figures.additions)
    same([p.batter for p in parts], figures.batter)
    same([p.batter_ml for p in parts], figures.batter_ml)


def assert_each_thing_sums(formula: Formula, figures: Figures) -> None:
    """Not the totals alone: every oil, liquid and addition by its id."""
    for things, got in (
        (formula.oils, [oil for p in figures.portions for oil in p.oils]),
        (formula.liquids, [q for p in figures.portions for q in p.liquids]),
        (formula.additions, [a for p in figures.portions for a in p.additions]),
    ):
        for thing in things:
            there = sum(part.grams for part in got if part.id == thing.id)
            assert there == pytest.approx(thing.grams, rel=1e-9, abs=1e-9)


@REPEATABLE
@given(batches(separate=False))
def test_one_pot_sums_to_the_batch(formula: Formula) -> None:
    figures = weigh(formula)
    assert_sums(figures)
    assert_each_thing_sums(formula, figures)


@REPEATABLE
@given(batches(separate=False))
def test_in_one_pot_a_portion_is_its_share_and_its_own(formula: Formula) -> None:
    figures = weigh(formula)
    for part in figures.portions:
        assert part.weights.total == pytest.approx(part.share * figures.weights.total, rel=1e-9)
        assert part.plain_water == pytest.approx(part.share * figures.water.plain, rel=1e-9, abs=1e-9)
        assert part.oils_grams == pytest.approx(part.share * figures.oils, rel=1e-9)
        for thing in (*part.additions, *part.liquids):
            assert thing.portion in (None, part.name)


@REPEATABLE
@given(batches(separate=True))
def test_separate_pots_sum_to_the_batch(formula: Formula) -> None:
    figures = weigh(formula)
    assert_sums(figures)
    assert_each_thing_sums(formula, figures)


@REPEATABLE
@given(batches(separate=True))
def test_every_pot_of_its_own_has_the_superfat_of_the_recipe(formula: Formula) -> None:
    """Its alkali, less what its own acids and its share of the common ones take, against its own oils."""
    for part in weigh(formula).portions:
        acids = acid((*part.additions, *part.liquids))
        available = part.weights.moles(formula.alkali) - acids
        assert 1 - available / demand(part.oils) == pytest.approx(formula.superfat, abs=1e-9)


@REPEATABLE
@given(batches(separate=True))
def test_one_lye_solution_for_every_pot(formula: Formula) -> None:
    figures = weigh(formula)
    for part in figures.portions:
        assert part.plain_water * figures.weights.total == pytest.approx(
            figures.water.plain * part.weights.total, rel=1e-9, abs=1e-9
        )


@REPEATABLE
@given(batches(separate=False))
def test_pots_alike_are_as_one_pot_where_no_acid_is_one_portions_own(formula: Formula) -> None:
    """Pots of one blend take of the lye by their shares; only acids of a single portion move that."""
    common = replace(
        formula,
        additions=tuple(replace(a, acid=0.0) for a in formula.additions),
        liquids=tuple(replace(q, acid=0.0) for q in formula.liquids),
    )
    one, apart = weigh(common), weigh(replace(common, separate_pots=True))
    for a, b in zip(one.portions, apart.portions, strict=True):
        assert b.weights.total == pytest.approx(a.weights.total, rel=1e-9)
        assert b.batter == pytest.approx(a.batter, rel=1e-9)


def test_no_portions_no_figures() -> None:
    oil = Oil("oil", 1000.0, 190.0, 186.0, 194.0)
    assert weigh(Formula((oil,), Alkali(), 0.05, Water("to-lye", 2.0))).portions == ()


def test_an_acid_of_one_pot_brings_that_pot_its_alkali() -> None:
    """12 g of citric acid take 12 × 0.6246 g of NaOH (3 × 39.9971/192.124), which that pot gets and
    no other."""
    oil = Oil("oil", 500.0, 190.0, 190.0, 190.0)
    sour = Addition("citric-acid", 12.0, portion="chalk", acid=3 / 192.124)
    pots = (Portion("chalk", 0.5, (oil,)), Portion("slate", 0.5, (oil,)))
    formula = Formula((oil, oil), Alkali(), 0.05, Water("to-lye", 2.0), (), (sour,), pots, True)
    chalk, slate = weigh(formula).portions
    assert slate.weights.total == pytest.approx(64.34, abs=0.01)
    assert chalk.weights.total - slate.weights.total == pytest.approx(12 * 0.6246, abs=0.001)


def test_what_is_set_onto_the_pour_is_in_the_loaf_and_in_no_portion() -> None:
    oil = Oil("oil", 1000.0, 190.0, 186.0, 194.0)
    halves = (Portion("chalk", 0.5), Portion("slate", 0.5))
    plain = Formula((oil,), Alkali(), 0.05, Water("to-lye", 2.0), portions=halves)
    petals = Addition("calendula-petals", 4.0, "pour", displaces=0.5)
    before, after = weigh(plain), weigh(replace(plain, additions=(petals,)))
    assert after.batter == before.batter
    assert after.portions == before.portions
    assert after.loaf == pytest.approx(before.loaf + 4.0)
    assert after.loaf_ml == pytest.approx(before.loaf_ml + 8.0)
    assert after.additions == 4.0


def test_the_superfat_of_a_portion_is_its_own() -> None:
    """Citric acid in four fifths of one pot: the fifth without it carries lye weighed for acid it has not.

    1000 g at 200 mg/g ask for 3.56471 mol; 16 g of acid take 16 x 3/192.124 = 0.249839 mol more, all of it
    weighed. The fifth gets (0.95 x 3.56471 + 0.249839) / 5 = 0.727263 mol for the 0.712942 mol it asks: -2.0 %.
    """
    acid = Addition("citric-acid", 16.0, portion="big", acid=3 / 192.124)
    oils = (Oil("blend", 1000.0, 200.0, 200.0, 200.0),)
    portions = (Portion("big", 0.8), Portion("small", 0.2))
    made = {
        pots: weigh(
            Formula(
                oils,
                Alkali(),
                0.05,
                Water("lye-strength", 0.33),
                additions=(acid,),
                portions=portions,
                separate_pots=pots,
            )
        ).portions
        for pots in (False, True)
    }
    assert made[False][1].superfat == pytest.approx(1 - 0.727263 / 0.712942, abs=1e-5)
    assert made[False][0].superfat == pytest.approx(1 - (4 * 0.727263 - 0.249839) / (4 * 0.712942), abs=1e-5)
    assert [portion.superfat for portion in made[True]] == pytest.approx([0.05, 0.05])


def test_what_is_sprinkled_on_takes_no_lye() -> None:
    oils = (Oil("blend", 1000.0, 200.0, 200.0, 200.0),)
    bare, sprinkled = (
        weigh(Formula(oils, Alkali(), 0.05, Water("lye-strength", 0.33), additions=extra))
        for extra in ((), (Addition("citric-acid", 20.0, stage="pour", acid=3 / 192.124),))
    )
    assert sprinkled.weights == bare.weights and sprinkled.superfat == pytest.approx(0.05)


def test_pots_are_weighed_one_by_one() -> None:
    """Five pots of five oils at 4.16 g each: 25 times 4 g on a scale of 1 g, and one jug of lye for 104 g."""
    oils = tuple(Oil(name, 20.8, 200.0, 200.0, 200.0) for name in "abcde")
    portions = tuple(Portion(f"p{at}", 0.2) for at in range(5))
    formula = Formula(
        oils, Alkali(), 0.03, Water("lye-strength", 0.33), portions=portions, separate_pots=True
    )
    figures = weigh(formula)
    sodium_hydroxide = round(0.97 * 104 * 200 / 1000 / 56.1056 * 39.9971)
    expected = 1 - sodium_hydroxide / (100 * 200 / 1000 / 56.1056 * 39.9971)
    assert figures.superfat_as_weighed == pytest.approx(expected, abs=1e-5)
    assert expected < 0.02


def test_lye_without_oil_on_the_scale_is_no_soap() -> None:
    oils = (Oil("blend", 0.4, 200.0, 200.0, 200.0),)
    acid = Addition("citric-acid", 2.0, acid=3 / 192.124)
    formula = Formula(oils, Alkali(), 0.05, Water("lye-strength", 0.33), additions=(acid,))
    weights = weigh(formula).weights
    assert superfat_as_weighed(replace(formula, additions=()), weights) < 0


def test_the_superfat_of_each_portion_by_hand() -> None:
    """One pot of 1000 g of 190, halves; acids of liquid and addition in one half, ash in the other."""
    formula = Formula(
        (Oil("oil", 1000.0, 190.0, 190.0, 190.0),),
        Alkali(),
        0.05,
        Water("of-oils", 0.3),
        (Liquid("juice", 40.0, 0.9, portion="chalk", acid=0.001),),
        (
            Addition("acid", 10.0, portion="chalk", acid=0.015),
            Addition("ash", 10.0, portion="ochre", base=0.002),
        ),
        (Portion("chalk", 0.5), Portion("ochre", 0.5)),
    )
    asked = 190.0 / c.KOH
    jug = (0.95 * asked + 0.04 + 0.15) / 2
    chalk, ochre = weigh(formula).portions
    assert chalk.superfat == pytest.approx(1 - (jug - 0.04 - 0.15) / (asked / 2))
    assert ochre.superfat == pytest.approx(1 - (jug + 0.02) / (asked / 2))
