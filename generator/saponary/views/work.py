"""The work order: every weight where the hands need it, stage by stage, with the maker's steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from saponary.book.pour_uses import pour_uses
from saponary.lye.formula import Addition, Liquid
from saponary.quantity.numbers import percent, short
from saponary.quantity.rounding import divided
from saponary.views import names
from saponary.views.pots import PortionView, Pot, portion_views, pots
from saponary.views.pouring import mould_words, pour_words
from saponary.views.weigh_sheet import Bench, Line, Table


@dataclass(frozen=True)
class Stage:
    """One stage: sentences, weighings, portions, and the maker's own steps."""

    id: str
    title: str
    lead: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    portions: tuple[PortionView, ...] = ()
    order: tuple[str, ...] = ()
    steps: tuple[Markup, ...] = ()
    close: tuple[str, ...] = ()


def work_order(bench: Bench) -> tuple[Stage, ...]:
    """The stages in order; one that has nothing to say is left out."""
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
    return tuple(s for s in stages if s.lead or s.tables or s.portions or s.steps or s.order)


def _before(bench: Bench) -> Stage:
    computed = bench.computed
    lead = [
        "Goggles, long gloves, long sleeves and an apron on; the room aired; nobody near who wears none.",
        f"Scale reading to {bench.scale.step_text}. {mould_words(computed.resolved.mould_name, computed.resolved.mould).capitalize()}.",
    ]
    vessel = computed.model.vessel or (
        "stainless steel pots" if computed.model.pots == "separate" else "stainless steel pot"
    )
    dry = list(dict.fromkeys(_dry(bench)))
    lead.append(
        f"Vessel: {vessel}. Lye jug of polypropylene or stainless steel."
        + (f" At hand, not weighed: {names.listed(dry)}." if dry else "")
    )
    return Stage("before", "Before", tuple(lead), steps=bench.steps("before"))


def _dry(bench: Bench) -> Iterator[str]:
    for use in pour_uses(bench.computed):
        if not use.weighed:
            yield names.inside(names.addition(bench.shelf, use.what))


def _alkali(bench: Bench) -> Iterator[Line]:
    weights, alkali = bench.computed.figures.weights, bench.computed.resolved.formula.alkali
    if alkali.sodium > 0:
        yield bench.line("Sodium hydroxide", weights.sodium_hydroxide, _purity(alkali.sodium_purity))
    if alkali.potassium > 0:
        yield bench.line("Potassium hydroxide", weights.potassium_hydroxide, _purity(alkali.potassium_purity))


def _purity(share: float) -> str:
    return f"of {short(100 * share)} % purity, counted" if share < 1.0 else ""


def _lye(bench: Bench) -> Stage:
    """Water, what dissolves before the alkali, the alkali, and what waits until the lye has cooled."""
    figures, shelf = bench.computed.figures, bench.shelf
    before, after = [], []
    for part, item in bench.written_additions():
        if part.stage == "lye" and part.portion is None:
            order = shelf.additions[part.id].lye_order if part.id in shelf.additions else "in-lye"
            if order == "cooled-lye":
                after.append(bench.addition(part, item, "once the lye has cooled"))
            elif order == "before-alkali":
                before.append(bench.addition(part, item, "into the water, before the alkali"))
            else:
                after.append(bench.addition(part, item, "into the lye"))
    liquids = [
        bench.liquid(q, "with the lye")
        for q in bench.computed.resolved.formula.liquids
        if q.stage == "lye" and q.portion is None
    ]
    lines = (bench.line("Plain water", figures.water.plain), *before, *_alkali(bench), *liquids, *after)
    close = [f"The alkali dissolves at a strength of {percent(figures.lye_strength_dissolved)}."]
    if abs(figures.lye_strength_dissolved - figures.lye_strength) > 0.0005:
        close.append(
            f"With all the water of the recipe counted, the lye strength is {percent(figures.lye_strength)}."
        )
    return Stage(
        "lye",
        "Lye",
        ("Alkali into the water in small portions, never water onto alkali. Let it clear and cool.",),
        (Table("Into the lye jug", lines, bench.total("In the jug", lines)),),
        steps=bench.steps("lye"),
        close=tuple(close),
    )


def _jug(bench: Bench) -> Iterator[float]:
    """Grams of everything in the lye jug, unrounded."""
    formula, figures = bench.computed.resolved.formula, bench.computed.figures
    yield figures.weights.total + figures.water.plain
    parts: tuple[Liquid | Addition, ...] = (*formula.liquids, *formula.additions)
    yield from (part.grams for part in parts if part.stage == "lye" and part.portion is None)


_STEPS = 10
"""A part of fewer steps of the scale is told more finely, and not made to fit."""


def _divided(lye: Stage, apart: tuple[Pot, ...], bench: Bench) -> Stage:
    """One lye for several pots is divided by weight."""
    if len(apart) < 2:
        return lye
    total = lye.tables[-1].total
    jug = total.grams if total is not None else sum(pot.lye for pot in apart)
    step = bench.computed.settings.scale_step_grams
    parts = [pot.lye for pot in apart]
    if min(parts) >= _STEPS * step:
        parts = divided(jug, parts, step)
    lines = tuple(bench.line(f"For {pot.name}", part) for pot, part in zip(apart, parts, strict=True))
    table = Table("Divide the cooled lye by weight", lines)
    return Stage(lye.id, lye.title, lye.lead, (*lye.tables, table), steps=lye.steps, close=lye.close)


def _oils(bench: Bench, apart: tuple[Pot, ...]) -> Stage:
    if apart:
        tables = tuple(bench.oils(f"Oils of {pot.name}", pot.oils, "In this pot") for pot in apart)
    else:
        tables = (bench.oils("Into the pot", bench.computed.resolved.formula.oils, "All the oils"),)
    lead = "Melt what is solid, then add what is liquid; let it cool."
    return Stage("oils", "Oils", (lead,), tables, steps=bench.steps("oils"))


def _trace(bench: Bench, apart: tuple[Pot, ...]) -> Stage:
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
    lead = ["Lye into the oils; stir until the batter leaves a trace."]
    if apart and lines:
        shares = names.listed([f"{percent(pot.share)} to {pot.name}" for pot in apart])
        lead.append(f"What follows is for the whole batch: {shares}.")
    return Stage(
        "trace",
        "To trace",
        tuple(lead),
        (Table("Into the batter", lines),) if lines else (),
        steps=bench.steps("trace"),
    )


def _when(stage: str) -> str:
    return "into the oils, before the lye" if stage == "oils" else "at trace"


def _split(bench: Bench) -> Stage:
    views = portion_views(bench)
    loose = tuple(say for say in bench.steps("split"))
    lead = ("Divide by weight, the jug on the scale.",) if views and not all(v.own_pot for v in views) else ()
    return Stage("split", "Split" if lead or not views else "Portions", lead, portions=views, steps=loose)


def _pour(bench: Bench) -> Stage:
    built, figures = bench.computed.resolved, bench.computed.figures
    close = []
    if built.bars:
        each = bench.scale.weigh(figures.loaf / built.bars)
        close.append(f"{built.bars} bars of about {each.main} {bench.scale.unit} fresh{_cut(bench)}.")
    lines = tuple(bench.addition(a, item) for a, item in bench.written_additions() if a.stage == "pour")
    tables = (Table("Set in, dusted or strewn", lines),) if lines else ()
    return Stage(
        "pour", "Pour", tables=tables, order=pour_words(bench), steps=bench.steps("pour"), close=tuple(close)
    )


def _cut(bench: Bench) -> str:
    cut, mould = bench.computed.model.cut, bench.computed.resolved.mould
    if cut is None or mould is None or mould.kind == "cavities":
        return ""
    across = f" and {short(cut.across.millimetres)} mm across" if cut.across else ""
    return f", cut every {short(cut.along.millimetres)} mm{across}"


def _cover(bench: Bench) -> Stage:
    lead = ["Gloves on until the loaf is two days old: it is still caustic when it looks like soap."]
    if bench.computed.model.serves == "bar":
        days = bench.computed.settings.cure
        lead.append(
            f"Cure the cut bars for {days} days or more, apart and airy. Weigh one marked bar every week, and test a cut face for free alkali before any bar is used."
        )
    return Stage("cover", "Cover and cure", tuple(lead), steps=bench.steps("cover"))
