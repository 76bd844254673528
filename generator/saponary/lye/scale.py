"""As weighed: every weight to the scale's step, and the superfat those weights really give."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.lye.alkali import Weights, demand, free, superfat
from saponary.lye.formula import Formula, Oil
from saponary.lye.pots import oils_of, portions_by_pot, together
from saponary.quantity.rounding import to_step


def superfat_as_weighed(formula: Formula, weights: Weights) -> float:
    """Superfat (fraction) once oils, alkali and acids are each rounded to the scale's step.

    Liquids and additions that bring acid or free alkali are rounded too; water is not in
    this sum, since it changes no demand.
    """
    step = formula.scale_step
    oils = tuple(replace(oil, grams=to_step(oil.grams, step)) for oil in _on_the_scale(formula))
    additions = tuple(replace(a, grams=to_step(a.grams, step)) for a in formula.additions)
    liquids = tuple(replace(q, grams=to_step(q.grams, step)) for q in formula.liquids)
    on_scale = Weights(to_step(weights.sodium_hydroxide, step), to_step(weights.potassium_hydroxide, step))
    available = free(on_scale.moles(formula.alkali), additions, liquids)
    asked = demand(oils)
    if asked <= 0 < available:
        return NO_OIL
    return superfat(available, asked)


NO_OIL = -1.0
"""Lye on the scale, and no oil that it could show: no number says how caustic that is."""


def _on_the_scale(formula: Formula) -> Iterator[Oil]:
    """The oils as they are weighed: once for the batch, or for each pot."""
    apart = portions_by_pot(formula)
    if not apart:
        yield from formula.oils
    for pot in apart:
        yield from together(oil for portion in pot for oil in oils_of(portion, formula))
