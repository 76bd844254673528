"""As weighed: every weight to the scale's step, and the superfat those weights really give."""

from __future__ import annotations

from dataclasses import replace

from saponary.lye import alkali as lye
from saponary.lye.formula import Formula
from saponary.lye.rounding import to_step


def superfat_as_weighed(formula: Formula, weights: lye.Weights) -> float:
    """Superfat (fraction) once oils, alkali and acids are each rounded to the scale's step.

    Liquids and additions that bring acid or free alkali are rounded too; water is not in
    this sum, since it changes no demand.
    """
    step = formula.scale_step
    oils = tuple(replace(oil, grams=to_step(oil.grams, step)) for oil in formula.oils)
    additions = tuple(replace(a, grams=to_step(a.grams, step)) for a in formula.additions)
    liquids = tuple(replace(q, grams=to_step(q.grams, step)) for q in formula.liquids)
    on_scale = lye.Weights(
        to_step(weights.sodium_hydroxide, step), to_step(weights.potassium_hydroxide, step)
    )
    available = on_scale.moles(formula.alkali) + lye.base(additions) - lye.acid(additions) - lye.acid(liquids)
    return lye.superfat(available, lye.demand(oils))
