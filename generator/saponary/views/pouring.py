"""The pour put in words: one sentence for each of its steps, with the weights it moves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from saponary.lye.mould import Mould
from saponary.messages.message import Listed, Message, Number, Value, Within, message, percent, short
from saponary.schema.pour import Bed, Columns, Drops, Embeds, Plops, PourStep, Swirl, Top
from saponary.views import names
from saponary.views.pots import portion_views
from saponary.views.weigh_sheet import WeighSheet

_NAMED_TIMES = 5
"""A tool is drawn through once, twice, … five times; beyond that the number is given."""


class Laid(NamedTuple):
    """How often each portion is laid down, and what all of it weighs as it was weighed together.

    Only a portion that is laid once is laid whole.
    """

    times: Counter[str]
    whole: Mapping[str, Number | None]


def pour_words(bench: WeighSheet) -> tuple[Message, ...]:
    """The steps in order. A pour without steps is one sentence."""
    laid = _laid(bench)
    found = [sentence for step in bench.computed.model.pour for sentence in _step(step, laid, bench)]
    if found:
        return tuple(found)
    mould = bench.computed.resolved.mould
    cavities = mould is not None and mould.kind == "cavities"
    if bench.computed.model.by.cooks:
        return (message("pour.spoon-into-cavities") if cavities else message("pour.spoon-into-mould"),)
    return (message("pour.into-cavities") if cavities else message("pour.into-mould"),)


def _step(step: PourStep, laid: Laid, bench: WeighSheet) -> Iterator[Message]:
    yield from (_bed(bed, laid, bench) for bed in step.beds or ())
    if step.columns:
        yield _columns(step.columns, laid, bench)
    if step.drops:
        yield _drops(step.drops, laid, bench)
    if step.plops:
        yield _plops(step.plops, laid, bench)
    if step.swirl:
        yield _swirl(step.swirl)
    if step.line:
        over = names.spoken(step.line.over)
        yield message("pour.line", powder=_extra(step.line.of, bench), over=over)
    if step.embeds:
        yield _embeds(step.embeds, bench)
    if step.top:
        yield _top(step.top, bench)


def _bed(bed: Bed, laid: Laid, bench: WeighSheet) -> Message:
    part = bed.part.fraction if bed.part else None
    amount = _amount(bed.of, part, laid, bench)
    if not bed.slope:
        return message("pour.bed.level", portion=amount)
    key = "pour.bed.up" if bed.slope > 0 else "pour.bed.down"
    return message(key, portion=amount, degrees=short(abs(bed.slope)))


def _columns(columns: Columns, laid: Laid, bench: WeighSheet) -> Message:
    of, in_all = _in_turn(columns.of, laid, bench)
    return message(
        "pour.columns",
        portions=of,
        number=message("pour.columns-number", number=columns.count) if columns.count else "",
        lean=message("pour.columns-lean", degrees=short(abs(columns.tilt))) if columns.tilt else "",
        in_all=in_all,
    )


def _drops(drops: Drops, laid: Laid, bench: WeighSheet) -> Message:
    order: Value = names.spoken(drops.of[0])
    for name in drops.of[1:]:
        order = message("pour.then", before=order, after=names.spoken(name))
    return message(
        "pour.drops",
        count=drops.count,
        into=names.spoken(drops.into),
        order=order,
        in_all=_in_all(drops.of, laid, bench),
    )


def _plops(plops: Plops, laid: Laid, bench: WeighSheet) -> Message:
    of, in_all = _in_turn(plops.of, laid, bench)
    across = short(plops.across.millimetres, unit="mm") if plops.across else None
    size: Value = message("pour.plops-size", across=across) if across else ""
    return message("pour.plops", size=size, portions=of, in_all=in_all)


def _swirl(swirl: Swirl) -> Message:
    times: Value = message("pour.times.many", passes=swirl.passes)
    if 1 <= swirl.passes <= _NAMED_TIMES:
        times = message(f"pour.times.{swirl.passes}")
    deep: Value = message("pour.deep", depth=percent(swirl.depth.fraction, 0)) if swirl.depth else ""
    return message("pour.swirl", tool=message(f"pour.tool.{swirl.tool}"), times=times, deep=deep)


def _embeds(embeds: Embeds, bench: WeighSheet) -> Message:
    return message(
        "pour.embeds",
        count=embeds.count,
        shape=message(f"pour.shape.{embeds.shape}"),
        of=_extra(embeds.of, bench),
        across=short(embeds.across.millimetres, unit="mm"),
    )


def _top(top: Top, bench: WeighSheet) -> Message:
    shape = message(f"pour.top.{top.shape}")
    if not top.sprinkle:
        return shape
    return message("pour.top-sprinkled", top=shape, powder=_extra(top.sprinkle, bench))


KEYS_BY_ID = {
    "pour.times.": ("1", "2", "3", "4", "5"),
    "pour.tool.": ("hanger", "comb", "skewer"),
    "pour.shape.": ("round", "square", "diamond", "half-round", "star"),
    "pour.top.": ("flat", "peaks", "waves", "mound"),
    "mould.": ("unknown", "cavities", "cylinder", "loaf", "slab"),
    "mould-first.": ("unknown", "cavities", "cylinder", "loaf", "slab"),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _in_turn(row: Sequence[str], laid: Laid, bench: WeighSheet) -> tuple[Value, Value]:
    """Portions in a row, with their weights; those of a row that comes back to one are told after it."""
    if len(set(row)) == len(row):
        return Listed(tuple(_amount(name, None, laid, bench) for name in row)), ""
    said = tuple(message("pour.the-portion", portion=names.spoken(name)) for name in row)
    return Listed(said), _in_all(row, laid, bench)


def _in_all(row: Sequence[str], laid: Laid, bench: WeighSheet) -> Value:
    """The weights of those that are laid nowhere else."""
    whole = tuple(_amount(name, None, laid, bench) for name in dict.fromkeys(row) if laid.times[name] == 1)
    return message("pour.in-all", portions=Listed(whole)) if whole else ""


def _laid(bench: WeighSheet) -> Laid:
    times: Counter[str] = Counter()
    for step in bench.computed.model.pour:
        times.update(bed.of for bed in step.beds or ())
        for laying in (step.columns, step.plops):
            times.update(set(laying.of) if laying else ())
        if step.drops:
            times.update({*step.drops.of, step.drops.into})
    views = zip(bench.computed.figures.portions, portion_views(bench), strict=True)
    return Laid(times, {made.name: view.batter for made, view in views})


def _amount(name: str, part: float | None, laid: Laid, bench: WeighSheet) -> Message:
    """A portion with its weight, where it is known how much of it is meant."""
    batter = {p.name: p.batter for p in bench.computed.figures.portions}.get(name)
    portion = message("pour.the-portion", portion=names.spoken(name))
    if batter is None or (part is None and laid.times[name] > 1):
        return portion
    if part is not None and part != 1.0:
        weight = bench.weight(batter * part)
        return message("pour.part-of", part=percent(part, 0), portion=portion, weight=weight)
    whole = laid.whole[name]
    return message("pour.all-of", portion=portion, weight=whole) if whole else portion


def _extra(name: str, bench: WeighSheet) -> Within:
    return Within(names.addition(bench.shelf, name))


def mould_words(name: str | None, mould: Mould | None, at: str = "mould") -> Message:
    """The mould with its inner measures, in millimetres; `at` is `mould-first` at the head of a sentence."""
    if name is None or mould is None:
        return message(f"{at}.unknown")
    name = names.spoken(name)
    if mould.kind == "cavities":
        return message(
            f"{at}.cavities", mould=name, count=mould.count or 0, each=short(mould.cavity_ml, unit="ml")
        )
    if mould.kind == "cylinder":
        across, long = (short(side, unit="mm") for side in (mould.diameter, mould.length))
        return message(f"{at}.cylinder", mould=name, across=across, long=long)
    length, width, height = (short(side) for side in (mould.length, mould.width, mould.height))
    return message(f"{at}.{mould.kind}", mould=name, length=length, width=width, height=height)
