"""The work order for a phone beside the pots: one stage or one portion a screen, a tick for every move."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from markupsafe import Markup

from saponary.messages.message import Listed, Message, Number, Value, Within, message
from saponary.quantity.rounding import show
from saponary.views import links
from saponary.views.pots import PortionView
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighLine, WeighTable


class Tick(NamedTuple):
    """A weighing to tick off, or a move of the pour; `id` comes of what it is, and not of where it stands."""

    id: str
    what: Value
    notes: tuple[Value, ...] = ()
    main: Number | None = None
    beside: Number | None = None


class Ticks(NamedTuple):
    caption: Value
    lines: tuple[Tick, ...]
    total: WeighLine | None


class Onward(NamedTuple):
    """The screen after this one, or before it."""

    id: str
    title: Value


@dataclass(frozen=True)
class Screen:
    """What is done before the next screen; `at` counts the screens from 1."""

    id: str
    title: Value
    at: int = 0
    note: Value = ""
    lead: tuple[Value, ...] = ()
    tables: tuple[Ticks, ...] = ()
    order: tuple[Tick, ...] = ()
    says: tuple[Markup, ...] = ()
    close: tuple[Value, ...] = ()
    onward: Onward | None = None
    back: Onward | None = None
    drawn: bool = False
    """Whether the drawing of the pour belongs on it."""


def screens(stages: Sequence[Stage]) -> tuple[Screen, ...]:
    """Every stage, and every portion of one, in the order of hands."""
    found = [screen for stage in stages for screen in _of_stage(stage)]
    ways = [None, *(Onward(screen.id, screen.title) for screen in found), None]
    return tuple(
        replace(screen, at=at, back=ways[at - 1], onward=ways[at + 1]) for at, screen in enumerate(found, 1)
    )


def _of_stage(stage: Stage) -> Iterator[Screen]:
    """What is only said of a stage in portions stands on the screen of its first one."""
    alone = not stage.portions or bool(stage.tables or stage.order)
    if alone:
        # A stage in which nothing is weighed or laid has its sentences to tick off.
        moves = stage.order or (() if stage.tables else stage.lead)
        yield Screen(
            id=stage.id,
            title=stage.title,
            lead=stage.lead if moves is not stage.lead else (),
            tables=tuple(_ticks(stage.id, table) for table in stage.tables),
            order=tuple(
                Tick(name, move)
                for name, move in zip(_ids(stage.id, map(_spelled, moves)), moves, strict=True)
            ),
            says=stage.steps,
            close=() if stage.portions else stage.close,
            drawn=stage.id == POUR,
        )
    for at, portion in enumerate(stage.portions, 1):
        screen = _of_portion(stage, portion, stage.close if at == len(stage.portions) else ())
        first = at == 1 and not alone
        yield replace(screen, lead=stage.lead, says=(*stage.steps, *screen.says)) if first else screen


POUR = "pour"
"""The stage in which the batter is laid as it is drawn."""


def _of_portion(stage: Stage, portion: PortionView, close: tuple[Value, ...]) -> Screen:
    notes = (portion.note,) if portion.note is not None else ()
    return Screen(
        id=portion.id,
        title=portion.name,
        note=message(
            "bench.of-stage",
            stage=stage.title,
            share=portion.share,
            batter=portion.batter or "",
            volume=portion.volume,
        ),
        tables=(_ticks(portion.id, portion.table),),
        says=(*notes, *portion.steps),
        close=close,
    )


def _ticks(home: str, table: WeighTable) -> Ticks:
    ids = _ids(home, (f"{table.id} {line.id} {_spelled(line.main or '')}" for line in table.lines))
    lines = tuple(
        Tick(name, line.what, line.notes, line.main, line.beside)
        for name, line in zip(ids, table.lines, strict=True)
    )
    return Ticks(table.caption, lines, table.total)


def _ids(home: str, things: Iterable[str]) -> Iterator[str]:
    """An id for each thing of a screen. `_` stands in no name, so that no two of a page are alike."""
    before: Counter[str] = Counter()
    for thing in things:
        name = f"tick_{home}_{links.anchor(thing)}"
        before[name] += 1
        yield name if before[name] == 1 else f"{name}_{before[name]}"


def _spelled(what: Value) -> str:
    """A value in signs that are the same in every language: keys, ids and numbers."""
    if isinstance(what, Message):
        return " ".join((what.key, *map(_spelled, what.values.values())))
    if isinstance(what, Listed):
        return " ".join(map(_spelled, what.items))
    if isinstance(what, Number):
        return show(what.value, what.decimals)
    return what.name if isinstance(what, Within) else str(what)
