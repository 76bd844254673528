"""As weighed: every weight to the scale's step, and the superfat those weights really give."""

from __future__ import annotations

from dataclasses import replace

from saponary.lye.alkali import Weights, demand, free, superfat
from saponary.lye.formula import Formula
from saponary.lye.pots import weighed_oils
from saponary.lye.stock import on_scale
from saponary.quantity.rounding import to_step


def superfat_as_weighed(formula: Formula, weights: Weights) -> float:
    """Superfat (fraction) once oils, alkali (or its stock) and acids are each rounded to the scale's step.

    Liquids and additions that bring acid or free alkali are rounded too; water is not in
    this sum, since it changes no demand.
    """
    step = formula.scale_step
    oils = tuple(replace(oil, grams=to_step(oil.grams, step)) for oil in weighed_oils(formula))
    additions = tuple(replace(a, grams=to_step(a.grams, step)) for a in formula.additions)
    liquids = tuple(replace(q, grams=to_step(q.grams, step)) for q in formula.liquids)
    available = free(on_scale(weights, formula).moles(formula.alkali), additions, liquids)
    asked = demand(oils)
    if asked <= 0 < available:
        return NO_OIL
    return superfat(available, asked)


NO_OIL = -1.0
"""Lye on the scale, and no oil that it could show: no number says how caustic that is."""
