"""The smallest batch: weighed at that size, each part has its steps and the superfat stays; a little below, not."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from saponary.lye.alkali import Weights, demand, free, superfat
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Stock, Water
from saponary.lye.smallest import DRIFT, STEPS, SUPERFAT, for_superfat, parts, smallest

OILS = (Oil("olive", 700.0, 190.0, 186.0, 194.0), Oil("coconut", 300.0, 255.0, 250.0, 260.0))


def batch(*additions: Addition, step: float = 1.0, stock: Stock | None = None) -> Formula:
    return Formula(
        OILS,
        Alkali(),
        0.05,
        Water("lye-strength", 0.33),
        (),
        additions,
        scale_step=step,
        stock=stock or Stock(),
    )


def test_worked_by_hand() -> None:
    """4 g of clay in 1,000 g of oils are 10 g, ten steps of a gram, in 2,500 g of oils."""
    formula = batch(Addition("clay", 4.0))
    found = smallest(formula, weigh(formula))
    assert found.part == "clay"
    assert found.oils == pytest.approx(2500.0)
    finer = replace(formula, scale_step=0.1)
    assert smallest(finer, weigh(finer)).oils == pytest.approx(250.0)


def test_what_a_part_is_weighed_as_counts() -> None:
    """A stock is weighed whole, so that there is more of it on the scale than of its alkali."""
    formula = batch(stock=Stock(0.5))
    weighed = dict(parts(formula, weigh(formula)))
    assert weighed["sodium-hydroxide"] == pytest.approx(2 * weigh(formula).weights.sodium_hydroxide)


@pytest.mark.parametrize("seed", range(40))
def test_at_that_size_every_part_has_its_steps_and_the_superfat_stays(seed: int) -> None:
    """Every weight half a step off, each towards less superfat: the sum is done here, not by the engine."""
    rng = random.Random(seed)
    oils = tuple(
        Oil(f"o{i}", rng.uniform(20, 500), v := rng.uniform(100, 260), v - 3, v + 3)
        for i in range(rng.randint(1, 5))
    )
    formula = Formula(
        oils,
        Alkali(sodium := rng.choice([0.0, 0.4, 1.0]), 1 - sodium, 0.98, 0.9),
        rng.uniform(0.0, 0.2),
        Water("lye-strength", 0.33),
        (Liquid("juice", rng.uniform(0, 30), 0.9, acid=0.0008),),
        (Addition("acid", rng.uniform(0, 20), acid=0.0156),),
        scale_step=rng.choice([0.1, 1.0, 5.0]),
    )
    found = smallest(formula, weigh(formula))
    there = formula.scaled(found.oils / formula.oils_grams)
    least = min(grams for _, grams in parts(there, weigh(there)))
    assert least >= STEPS * formula.scale_step * (1 - 1e-9)
    only = formula.scaled(for_superfat(formula, weigh(formula)) / formula.oils_grams)
    assert _worst(there) <= DRIFT * 1.02
    assert _worst(only) == pytest.approx(DRIFT, rel=0.03)
    if found.part != SUPERFAT:
        assert least == pytest.approx(STEPS * formula.scale_step)


def _worst(formula: Formula) -> float:
    half = formula.scale_step / 2
    w = weigh(formula)
    weights = Weights(
        *(g + half if g > 0 else 0.0 for g in (w.weights.sodium_hydroxide, w.weights.potassium_hydroxide))
    )
    off = [replace(a, grams=a.grams - half) for a in formula.additions]
    wet = [replace(q, grams=q.grams - half) for q in formula.liquids]
    oils = [replace(o, grams=o.grams - half) for o in formula.oils]
    return w.superfat - superfat(free(weights.moles(formula.alkali), off, wet), demand(oils))
