"""Portions on the bench: divided from one pot, or made in pots of their own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from markupsafe import Markup

from saponary.lye.formula import Addition, Liquid, Oil
from saponary.lye.portions import PortionFigures
from saponary.lye.pots import portions_by_pot, together
from saponary.messages.message import Listed, Message, Number, message, percent
from saponary.schema.blend import Portion
from saponary.views import names
from saponary.views.weigh_sheet import WeighSheet, WeighTable


class Pot(NamedTuple):
    """A pot: its first portion, its name, its share of the batch, its oils, and its part of the lye jug."""

    id: str
    name: Message
    share: float
    oils: tuple[Oil, ...]
    lye: float


@dataclass(frozen=True)
class PortionView:
    """One portion: how much of the batter, and what is stirred into it."""

    id: str
    name: str
    share: Number
    volume: Number
    batter: Number | None
    table: WeighTable
    own_pot: bool
    note: Markup | None
    steps: tuple[Markup, ...]


def pots(bench: WeighSheet, jug: float) -> tuple[Pot, ...]:
    """The pots where there are several; none where all is made in one."""
    groups = _groups(bench)
    whole = bench.computed.figures.weights.total or 1.0
    return tuple(
        Pot(
            group[0].name,
            _pot_name([p.name for p in group]),
            sum(p.share for p in group),
            together(oil for p in group for oil in p.oils),
            jug * sum(p.weights.total for p in group) / whole,
        )
        for group in groups
    )


def _groups(bench: WeighSheet) -> list[list[PortionFigures]]:
    """The portions of each pot, with their figures."""
    made = {p.name: p for p in bench.computed.figures.portions}
    return [[made[p.name] for p in pot] for pot in portions_by_pot(bench.computed.resolved.formula)]


def _pot_name(portions: Sequence[str]) -> Message:
    return message("pots.pot-of", portions=Listed(tuple(names.spoken(name) for name in portions)))


BATTER = ("pot", "from-pot")
"""Ids of the lines that say how much batter a portion gets: all of its own pot, or a part of a common one."""


def portion_views(bench: WeighSheet) -> tuple[PortionView, ...]:
    """Portion by portion: its share of the common batter, then what it gets of its own."""
    alone = {group[0].name for group in _groups(bench) if len(group) == 1}
    given = {p.name: p for p in bench.computed.model.portions}
    return tuple(_view(bench, p, given[p.name], p.name in alone) for p in bench.computed.figures.portions)


def _view(bench: WeighSheet, made: PortionFigures, given: Portion, own_pot: bool) -> PortionView:
    additions = [
        bench.addition(part, item)
        for part, item in bench.written_additions()
        if part.portion == made.name and part.stage != "pour"
    ]
    liquids = [bench.liquid(part) for part in made.liquids if part.portion == made.name]
    parts: tuple[Addition | Liquid, ...] = (*made.additions, *made.liquids)
    own = sum(part.grams for part in parts if part.portion == made.name)
    first = bench.line(
        BATTER[0] if own_pot else BATTER[1],
        message("pots.all-of-its-pot") if own_pot else message("pots.batter-from-pot"),
        made.batter - own,
    )
    lines = (first, *liquids, *additions)
    total = bench.total(f"portion {made.name} batter", message("pots.makes"), lines)
    return PortionView(
        id=f"portion-{made.name}",
        name=names.spoken(made.name),
        share=percent(made.share),
        volume=Number(made.batter_ml, 0, "ml"),
        batter=replace(total.main, unit=bench.scale.unit) if total.main else None,
        table=WeighTable(
            f"portion {made.name}",
            message("pots.what-goes-in", portion=names.spoken(made.name)),
            lines,
            total if len(lines) > 1 else None,
        ),
        own_pot=own_pot,
        note=bench.prose.inline(given.note) if given.note else None,
        steps=bench.steps("portion", portion=made.name),
    )
