"""Figures of what a maker makes the batch to: stocks on the scale, bars of a weight, a soap thinned with water."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.aims import Aims, acid_grams, thinned
from saponary.lye.alkali import demand
from saponary.lye.dilution import total_fatty_matter
from saponary.lye.figures import Figures
from saponary.lye.formula import Formula
from saponary.lye.smallest import smallest
from saponary.lye.stock import from_stock

Named = Iterator[tuple[str, float]]
"""Names of figures, and grams."""


def made_to(figures: Figures, formula: Formula, aims: Aims, bars: int | None) -> Named:
    """Those that the recipe asks for, and those that hold for any batch."""
    if formula.weighs_lye:
        yield "smallest-batch", smallest(formula, figures).oils
        yield "total-fatty-matter", total_fatty_matter(formula, figures)
        yield from _stocks(figures, formula)
    yield from _bars(figures, aims, bars)
    yield from _thinned(figures, formula, aims)


def _stocks(figures: Figures, formula: Formula) -> Named:
    stock = formula.stock
    drawn = from_stock(figures.weights, figures.water.plain, stock)
    if drawn.sodium > 0:
        yield "sodium-hydroxide-stock", drawn.sodium
    if drawn.potassium > 0:
        yield "potassium-hydroxide-stock", drawn.potassium
    if drawn.sodium > 0 or drawn.potassium > 0:
        yield "water-beside-stock", drawn.beside


def _bars(figures: Figures, aims: Aims, bars: int | None) -> Named:
    if not bars or aims.kept is None:
        return
    poured = figures.loaf / bars
    yield "cured-bar", aims.kept.cured(poured)
    if aims.net_weight is not None:
        each = aims.kept.to_pour(aims.net_weight)
        yield "bar-for-label", each
        yield "batter-for-label", figures.batter * each / poured
        if figures.oils > 0:
            yield "oils-for-label", figures.oils * each / poured


def _thinned(figures: Figures, formula: Formula, aims: Aims) -> Named:
    found = thinned(formula, figures, aims)
    if found is None:
        return
    yield "paste", found.paste
    yield "dilution-water", found.water
    yield "liquid-soap", found.solution
    acid = acid_grams(-figures.superfat * demand(formula.oils), aims)
    if acid is not None:
        yield "neutralising-acid", acid
