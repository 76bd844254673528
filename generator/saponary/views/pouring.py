"""The pour put in words: one sentence for each of its steps, with the weights it moves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from saponary.lye.mould import Mould
from saponary.quantity.numbers import percent, short
from saponary.schema.pour import Bed, PourStep
from saponary.views import names
from saponary.views.pots import portion_views
from saponary.views.weigh_sheet import Bench

_TOOLS = {"hanger": "a wire hanger", "comb": "a comb", "skewer": "a skewer"}
_TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times", 5: "five times"}
_TOPS = {
    "flat": "Leave the top level.",
    "peaks": "Pull the top up into peaks.",
    "waves": "Draw the top into waves.",
    "mound": "Heap the top up along the middle.",
}


@dataclass(frozen=True)
class Laid:
    """How often each portion is laid down, and what all of it weighs as it was weighed together.

    Only a portion that is laid once is laid whole.
    """

    times: Counter[str]
    whole: Mapping[str, str]


def pour_words(bench: Bench) -> tuple[str, ...]:
    """The steps in order. A pour without steps is one sentence."""
    laid = _laid(bench)
    said = [sentence for step in bench.computed.model.pour for sentence in _step(step, laid, bench)]
    if said:
        return tuple(said)
    return (f"Pour the batter into the {_holder(bench.computed.resolved.mould)}.",)


def _step(step: PourStep, laid: Laid, bench: Bench) -> Iterator[str]:
    if step.beds:
        yield from (_bed(bed, laid, bench) for bed in step.beds)
    if step.columns:
        of, in_all = _in_turn(step.columns.of, laid, bench)
        count = f", {step.columns.count} columns" if step.columns.count else ""
        lean = f", leaning {short(abs(step.columns.tilt))}°" if step.columns.tilt else ""
        yield f"Pour {of} side by side in narrow columns, in this order from the left{count}{lean}.{in_all}"
    if step.drops:
        places = "one place" if step.drops.count == 1 else f"{step.drops.count} places"
        order = ", then ".join(names.spoken(name) for name in step.drops.of)
        yield f"Let it fall into the middle of the {names.spoken(step.drops.into)}, in {places}: {order}.{_in_all(step.drops.of, laid, bench)}"
    if step.plops:
        of, in_all = _in_turn(step.plops.of, laid, bench)
        size = f" about {short(step.plops.across.millimetres)} mm across" if step.plops.across else ""
        yield f"Set down spoonfuls{size} in turn: {of}.{in_all}"
    if step.swirl:
        deep = f", to {percent(step.swirl.depth.fraction, 0)} of the depth" if step.swirl.depth else ""
        yield f"Draw {_TOOLS[step.swirl.tool]} through it {_TIMES.get(step.swirl.passes, f'{step.swirl.passes} times')}{deep}."
    if step.line:
        yield f"Dust a thin line of {_extra(step.line.of, bench)} over the {names.spoken(step.line.over)}."
    if step.embeds:
        one = step.embeds.count == 1
        pieces = (
            f"one {step.embeds.shape} piece" if one else f"{step.embeds.count} {step.embeds.shape} pieces"
        )
        yield f"Set in {pieces} of {_extra(step.embeds.of, bench)}, {short(step.embeds.across.millimetres)} mm across."
    if step.top:
        strewn = f" Strew {_extra(step.top.strewn, bench)} over it." if step.top.strewn else ""
        yield _TOPS[step.top.shape] + strewn


def _bed(bed: Bed, laid: Laid, bench: Bench) -> str:
    slope = ""
    if bed.slope:
        slope = f", sloping {short(abs(bed.slope))}° {'up' if bed.slope > 0 else 'down'} to the right"
    part = bed.part.fraction if bed.part else None
    return f"Pour {_amount(bed.of, part, laid, bench)} as a bed{slope or ', level'}."


def _in_turn(row: Sequence[str], laid: Laid, bench: Bench) -> tuple[str, str]:
    """Portions in a row, with their weights; those of a row that comes back to one are told after it."""
    if len(set(row)) == len(row):
        return names.listed([_amount(name, None, laid, bench) for name in row]), ""
    return names.listed([f"the {names.spoken(name)}" for name in row]), _in_all(row, laid, bench)


def _in_all(row: Sequence[str], laid: Laid, bench: Bench) -> str:
    """The weights of those that are laid nowhere else."""
    whole = [_amount(name, None, laid, bench) for name in dict.fromkeys(row) if laid.times[name] == 1]
    return f" In all {names.listed(whole)}." if whole else ""


def _laid(bench: Bench) -> Laid:
    times: Counter[str] = Counter()
    for step in bench.computed.model.pour:
        times.update(bed.of for bed in step.beds or ())
        for laying in (step.columns, step.plops):
            times.update(set(laying.of) if laying else ())
        if step.drops:
            times.update({*step.drops.of, step.drops.into})
    views = zip(bench.computed.figures.portions, portion_views(bench), strict=True)
    return Laid(times, {made.name: view.batter for made, view in views})


def _amount(name: str, part: float | None, laid: Laid, bench: Bench) -> str:
    """A portion with its weight, where it is known how much of it is meant."""
    batter = {p.name: p.batter for p in bench.computed.figures.portions}.get(name)
    said = f"the {names.spoken(name)}"
    if batter is None or (part is None and laid.times[name] > 1):
        return said
    share = part if part is not None else 1.0
    if share == 1.0:
        return f"{said} ({laid.whole[name]})" if laid.whole[name] else said
    weight = bench.scale.weigh(batter * share)
    return f"{percent(share, 0)} of {said} ({weight.main} {bench.scale.unit})"


def _extra(name: str, bench: Bench) -> str:
    return names.inside(names.addition(bench.shelf, name))


def _holder(mould: Mould | None) -> str:
    return "mould" if mould is None or mould.kind != "cavities" else "cavities"


def mould_words(name: str | None, mould: Mould | None) -> str:
    """The mould with its inner measures, in millimetres."""
    if name is None or mould is None:
        return "a mould that holds the batter with head room"
    if mould.kind == "cavities":
        return f"the mould {name}, {mould.count} cavities of {short(mould.cavity_ml)} ml"
    if mould.kind == "cylinder":
        return f"the mould {name}, a pipe {short(mould.diameter)} mm across and {short(mould.length)} mm long"
    measures = " × ".join(short(side) for side in (mould.length, mould.width, mould.height))
    return f"the mould {name}, a {mould.kind} of {measures} mm inside"
