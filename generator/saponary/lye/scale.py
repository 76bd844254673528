"""As weighed: every weight to the scale's step, and the superfat those weights really give."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.lye import alkali as lye
from saponary.lye.formula import Formula, Oil
from saponary.quantity.rounding import to_step


def superfat_as_weighed(formula: Formula, weights: lye.Weights) -> float:
    """Superfat (fraction) once oils, alkali and acids are each rounded to the scale's step.

    Liquids and additions that bring acid or free alkali are rounded too; water is not in
    this sum, since it changes no demand.
    """
    step = formula.scale_step
    oils = tuple(replace(oil, grams=to_step(oil.grams, step)) for oil in _on_the_scale(formula))
    additions = tuple(replace(a, grams=to_step(a.grams, step)) for a in formula.additions)
    liquids = tuple(replace(q, grams=to_step(q.grams, step)) for q in formula.liquids)
    on_scale = lye.Weights(
        to_step(weights.sodium_hydroxide, step), to_step(weights.potassium_hydroxide, step)
    )
    available = on_scale.moles(formula.alkali) + lye.base(additions) - lye.acid(additions) - lye.acid(liquids)
    asked = lye.demand(oils)
    if asked <= 0 < available:
        return NO_OIL
    return lye.superfat(available, asked)


NO_OIL = -1.0
"""Lye on the scale, and no oil that it could show: no number says how caustic that is."""


def _on_the_scale(formula: Formula) -> Iterator[Oil]:
    """The oils as they are weighed: once for the batch, or for each pot apart.

    Portions without oils of their own share a pot where others have their own.
    """
    if not formula.separate_pots or not formula.portions:
        yield from formula.oils
        return
    alone = [portion for portion in formula.portions if portion.oils is not None]
    for portion in alone:
        yield from portion.oils or ()
    common = [portion.share for portion in formula.portions if portion.oils is None]
    for share in [sum(common)] if alone and common else common:
        yield from (replace(oil, grams=oil.grams * share) for oil in formula.oils)
