"""Portions, and the way into the mould."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.lye.mould import rim_height
from saponary.messages.message import Message, Value, message, short
from saponary.views.pots import portion_views
from saponary.views.pouring import pour_words
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighSheet, WeighTable


def split(bench: WeighSheet) -> Stage:
    views = portion_views(bench)
    lead = (message("work.split.lead"),) if views and not all(v.own_pot for v in views) else ()
    title = message("work.split.title") if lead or not views else message("work.split.portions")
    return Stage("split", title, lead, portions=views, steps=bench.steps("split"))


def pour(bench: WeighSheet) -> Stage:
    built, figures = bench.computed.resolved, bench.computed.figures
    close = [*_fills(bench)]
    if built.bars:
        each = bench.weight(figures.loaf / built.bars)
        key = "work.pour.bars-cooked" if bench.computed.model.by.cooks else "work.pour.bars"
        close.append(message(key, count=built.bars, each=each, cut=_cut(bench)))
    lines = tuple(bench.addition(a, item) for a, item in bench.written_additions() if a.stage == "pour")
    return Stage(
        "pour",
        message("work.pour.title-cooked" if bench.computed.model.by.cooks else "work.pour.title"),
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
