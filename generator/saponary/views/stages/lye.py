"""The lye: water, what dissolves before the alkali, the alkali, and what waits until the lye has cooled."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.lye.formula import Addition, Liquid
from saponary.messages.message import message, percent, short
from saponary.quantity.rounding import divided
from saponary.views import names
from saponary.views.pots import Pot, pots
from saponary.views.stages.stage import Stage, kept_at
from saponary.views.weigh_sheet import WeighLine, WeighSheet, WeighTable


def _alkali(bench: WeighSheet) -> Iterator[WeighLine]:
    weights, alkali = bench.computed.figures.weights, bench.computed.resolved.formula.alkali
    stock = bench.computed.resolved.formula.stock
    for name, share, grams, purity, strength in (
        ("sodium-hydroxide", alkali.sodium, weights.sodium_hydroxide, alkali.sodium_purity, stock.sodium),
        (
            "potassium-hydroxide",
            alkali.potassium,
            weights.potassium_hydroxide,
            alkali.potassium_purity,
            stock.potassium,
        ),
    ):
        if share > 0:
            notes = [message("work.lye.purity", purity=short(100 * purity, unit="%"))] if purity < 1.0 else []
            drawn = bench.computed.catalogue.get(f"{name}-stock")
            if drawn is not None and strength is not None:
                notes.insert(0, message("work.lye.stock", strength=short(100 * strength, unit="%")))
            id, weighed = (drawn.name, drawn.value) if drawn is not None else (name, grams)
            yield bench.line(id, names.charge(name), weighed, *notes)


def lye(bench: WeighSheet) -> Stage:
    """Water, what dissolves before the alkali, the alkali, and what waits until the lye has cooled."""
    figures, apart = bench.computed.figures, separate_pots(bench)
    before, after = _dissolved(bench)
    liquids = [
        bench.liquid(q, message("work.lye.with"))
        for q in bench.computed.resolved.formula.liquids
        if q.stage == "lye" and q.portion is None
    ]
    water = bench.line("plain-water", names.charge("plain-water"), figures.water.plain)
    beside = bench.computed.catalogue.get("water-beside-stock")
    if beside is not None:
        water = bench.line(beside.name, message("work.lye.beside-stock"), beside.value)
    lines = (water, *before, *_alkali(bench), *liquids, *after)
    close = [message("work.lye.dissolves", strength=percent(figures.lye_strength_dissolved, tight=True))]
    if abs(figures.lye_strength_dissolved - figures.lye_strength) > 0.0005:
        close.append(message("work.lye.all-water", strength=percent(figures.lye_strength, tight=True)))
    warm = bench.computed.model.temperatures
    close += kept_at(warm.lye if warm else None, "work.lye.at")
    total = bench.total("lye-solution", message("work.lye.total"), lines)
    whole = Stage(
        "lye",
        message("work.lye.title"),
        (message("work.lye.stock-lead") if beside is not None else message("work.lye.lead"),),
        (WeighTable("jug", message("work.lye.caption"), lines, total),),
        steps=bench.steps("lye"),
        close=tuple(close),
    )
    return _divided(whole, apart, bench)


def separate_pots(bench: WeighSheet) -> tuple[Pot, ...]:
    """The pots of the batch where there are several, each with its part of the lye."""
    return pots(bench, sum(_jug(bench)))


def _dissolved(bench: WeighSheet) -> tuple[list[WeighLine], list[WeighLine]]:
    """Additions to the lye jug: those that go in before the alkali, and those after it."""
    before, after = list[WeighLine](), list[WeighLine]()
    for part, item in bench.written_additions():
        if part.stage != "lye" or part.portion is not None:
            continue
        known = bench.shelf.additions.get(part.id)
        order = known.lye_order if known is not None else "in-lye"
        if order == "cooled-lye":
            after.append(bench.addition(part, item, message("work.lye.cooled")))
        elif order == "before-alkali":
            before.append(bench.addition(part, item, message("work.lye.before-alkali")))
        else:
            after.append(bench.addition(part, item, message("work.lye.into")))
    return before, after


def _jug(bench: WeighSheet) -> Iterator[float]:
    """Grams of everything in the lye jug, unrounded."""
    formula, figures = bench.computed.resolved.formula, bench.computed.figures
    yield figures.weights.total + figures.water.plain
    parts: tuple[Liquid | Addition, ...] = (*formula.liquids, *formula.additions)
    yield from (part.grams for part in parts if part.stage == "lye" and part.portion is None)


_STEPS = 10
"""A part of fewer steps of the scale is told more finely, and not made to fit."""


def _divided(lye: Stage, apart: tuple[Pot, ...], bench: WeighSheet) -> Stage:
    """One lye for several pots is divided by weight."""
    if len(apart) < 2:
        return lye
    total = lye.tables[-1].total
    jug = total.grams if total is not None else sum(pot.lye for pot in apart)
    step = bench.computed.settings.scale_step_grams
    parts = [pot.lye for pot in apart]
    if min(parts) >= _STEPS * step:
        parts = divided(jug, parts, step)
    lines = tuple(
        bench.line(f"lye-solution {pot.id}", message("work.lye.for-pot", pot=pot.name), part)
        for pot, part in zip(apart, parts, strict=True)
    )
    table = WeighTable("divided", message("work.lye.divide"), lines)
    return replace(lye, tables=(*lye.tables, table))
