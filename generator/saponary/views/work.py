"""The work order: every weight where the hands need it, stage by stage, with the maker's steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from saponary.book.pour_uses import pour_uses
from saponary.book.published import Published
from saponary.lye.formula import Addition, Liquid
from saponary.lye.mould import rim_height
from saponary.messages.message import Listed, Message, Value, Within, message, percent, short
from saponary.quantity.rounding import divided
from saponary.views import names
from saponary.views.pots import PortionView, Pot, portion_views, pots
from saponary.views.pouring import mould_words, pour_words
from saponary.views.uptake import unknown_uptake
from saponary.views.weigh_sheet import WeighLine, WeighSheet, WeighTable, scale_step


@dataclass(frozen=True)
class Stage:
    """One stage: sentences, weighings, portions, and the maker's own steps."""

    id: str
    title: Message
    lead: tuple[Value, ...] = ()
    tables: tuple[WeighTable, ...] = ()
    portions: tuple[PortionView, ...] = ()
    order: tuple[Value, ...] = ()
    steps: tuple[Markup, ...] = ()
    close: tuple[Value, ...] = ()


@dataclass(frozen=True)
class WorkOrder:
    """The stages in order, and the units in which they are weighed: the book's, and the one beside it."""

    unit: str
    beside: str
    stages: tuple[Stage, ...]


def work_order(bench: WeighSheet) -> WorkOrder:
    """A stage that has nothing to say is left out."""
    lye = _lye(bench)
    apart = pots(bench, sum(_jug(bench)))
    stages = (
        _before(bench),
        _divided(lye, apart, bench),
        _oils(bench, apart),
        _trace(bench, apart),
        _split(bench),
        _pour(bench),
        _cover(bench),
    )
    kept = tuple(s for s in stages if s.lead or s.tables or s.portions or s.steps or s.order)
    return WorkOrder(bench.scale.unit, bench.scale.beside, kept)


def _before(bench: WeighSheet) -> Stage:
    model, built = bench.computed.model, bench.computed.resolved
    several = model.pots == "separate"
    vessel: Value = model.vessel or message("work.before.pots" if several else "work.before.pot")
    dry = unweighed(bench.computed)
    lead = (
        message("work.before.wear"),
        message(
            "work.before.scale",
            step=scale_step(bench.scale),
            mould=mould_words(built.mould_name, built.mould, "mould-first"),
        ),
        message(
            "work.before.vessel",
            vessel=vessel,
            at_hand=message("work.before.at-hand", dry=Listed(dry)) if dry else "",
        ),
        *(
            message("figure.superfat-not-known", reason=why)
            for why in (unknown_uptake(bench.computed),)
            if why
        ),
    )
    return Stage("before", message("work.before.title"), lead, steps=bench.steps("before"))


def unweighed(computed: Published) -> tuple[Within, ...]:
    """What the pour dusts, sets in or sprinkles without a weight, each once."""
    unseen = dict.fromkeys(use.what for use in pour_uses(computed) if not use.weighed)
    return tuple(Within(names.addition(computed.pantry, name)) for name in unseen)


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


def _lye(bench: WeighSheet) -> Stage:
    """Water, what dissolves before the alkali, the alkali, and what waits until the lye has cooled."""
    figures = bench.computed.figures
    before, after = _dissolved(bench)
    liquids = [
        bench.liquid(q, message("work.lye.with"))
        for q in bench.computed.resolved.formula.liquids
        if q.stage == "lye" and q.portion is None
    ]
    beside = bench.computed.catalogue.get("water-beside-stock")
    water = bench.line("plain-water", names.charge("plain-water"), figures.water.plain)
    if beside is not None:
        water = bench.line(beside.name, message("work.lye.beside-stock"), beside.value)
    lines = (water, *before, *_alkali(bench), *liquids, *after)
    close = [message("work.lye.dissolves", strength=percent(figures.lye_strength_dissolved))]
    if abs(figures.lye_strength_dissolved - figures.lye_strength) > 0.0005:
        close.append(message("work.lye.all-water", strength=percent(figures.lye_strength)))
    total = bench.total("lye-solution", message("work.lye.total"), lines)
    return Stage(
        "lye",
        message("work.lye.title"),
        (message("work.lye.stock-lead") if beside is not None else message("work.lye.lead"),),
        (WeighTable("jug", message("work.lye.caption"), lines, total),),
        steps=bench.steps("lye"),
        close=tuple(close),
    )


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


def _oils(bench: WeighSheet, apart: tuple[Pot, ...]) -> Stage:
    tables = tuple(
        bench.oils(
            f"oils {pot.id}", message("work.oils.of-pot", pot=pot.name), pot.oils, message("work.oils.in-pot")
        )
        for pot in apart
    )
    if not apart:
        oils = bench.computed.resolved.formula.oils
        tables = (bench.oils("oils", message("work.oils.caption"), oils, message("work.oils.all")),)
    lead = (message("work.oils.lead"),)
    return Stage("oils", message("work.oils.title"), lead, tables, steps=bench.steps("oils"))


def _trace(bench: WeighSheet, apart: tuple[Pot, ...]) -> Stage:
    formula = bench.computed.resolved.formula
    liquids = [
        (q.stage, bench.liquid(q, _when(q.stage)))
        for q in formula.liquids
        if q.portion is None and q.stage != "lye"
    ]
    dry = [
        (a.stage, bench.addition(a, item, _when(a.stage)))
        for a, item in bench.written_additions()
        if a.portion is None and a.stage in ("oils", "trace")
    ]
    both = [*liquids, *dry]
    lines = tuple(line for stage, line in both if stage == "oils") + tuple(
        line for stage, line in both if stage != "oils"
    )
    lead = [message("work.trace.lead")]
    if apart and lines:
        shares = Listed(
            tuple(message("work.trace.share-to", share=percent(pot.share), pot=pot.name) for pot in apart)
        )
        lead.append(message("work.trace.for-all", shares=shares))
    return Stage(
        "trace",
        message("work.trace.title"),
        tuple(lead),
        (WeighTable("batter", message("work.trace.caption"), lines),) if lines else (),
        steps=bench.steps("trace"),
    )


def _when(stage: str) -> Message:
    return message("work.trace.before-lye") if stage == "oils" else message("work.trace.at")


def _split(bench: WeighSheet) -> Stage:
    views = portion_views(bench)
    lead = (message("work.split.lead"),) if views and not all(v.own_pot for v in views) else ()
    title = message("work.split.title") if lead or not views else message("work.split.portions")
    return Stage("split", title, lead, portions=views, steps=bench.steps("split"))


def _pour(bench: WeighSheet) -> Stage:
    built, figures = bench.computed.resolved, bench.computed.figures
    close = [*_fills(bench)]
    if built.bars:
        each = bench.weight(figures.loaf / built.bars)
        close.append(message("work.pour.bars", count=built.bars, each=each, cut=_cut(bench)))
    lines = tuple(bench.addition(a, item) for a, item in bench.written_additions() if a.stage == "pour")
    return Stage(
        "pour",
        message("work.pour.title"),
        tables=(WeighTable("laid", message("work.pour.caption"), lines),) if lines else (),
        order=pour_words(bench),
        steps=bench.steps("pour"),
        close=tuple(close),
    )


def _fills(bench: WeighSheet) -> Iterator[Message]:
    """How high the batter stands in the mould, where it fits and the mould's height is known."""
    mould, height = bench.computed.resolved.mould, bench.computed.catalogue.get("fill-height")
    if mould is not None and height is not None:
        rim = short(rim_height(mould), unit="mm")
        yield message("work.pour.fills", height=height.number(), rim=rim)


def _cut(bench: WeighSheet) -> Value:
    cut, mould = bench.computed.model.cut, bench.computed.resolved.mould
    if cut is None or mould is None or mould.kind == "cavities":
        return ""
    along = short(cut.along.millimetres, unit="mm")
    if not cut.across:
        return message("work.pour.cut", along=along)
    return message("work.pour.cut-across", along=along, across=short(cut.across.millimetres, unit="mm"))


def _cover(bench: WeighSheet) -> Stage:
    lead = [message("work.cover.gloves")]
    if bench.computed.model.serves == "bar":
        lead.append(message("work.cover.cure", days=bench.computed.settings.cure))
    return Stage("cover", message("work.cover.title"), tuple(lead), steps=bench.steps("cover"))
