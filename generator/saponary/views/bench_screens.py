"""The work order for a phone beside the pots: one stage or one portion a screen, a tick for every move."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from saponary.views import links
from saponary.views.pots import PortionView
from saponary.views.weigh_sheet import Line, Table
from saponary.views.work import Stage


@dataclass(frozen=True)
class Tick:
    """A weighing to tick off, or a move of the pour; `id` comes of what it says, and not of where it stands."""

    id: str
    what: str
    notes: tuple[str, ...] = ()
    main: str = ""
    beside: str = ""


@dataclass(frozen=True)
class Ticks:
    caption: str
    lines: tuple[Tick, ...]
    total: Line | None


@dataclass(frozen=True)
class Screen:
    """What is done before the next screen. `onward` is the id and title of that."""

    id: str
    title: str
    position: str
    note: str = ""
    lead: tuple[str, ...] = ()
    tables: tuple[Ticks, ...] = ()
    order: tuple[Tick, ...] = ()
    says: tuple[Markup, ...] = ()
    close: tuple[str, ...] = ()
    onward: tuple[str, str] | None = None


def screens(stages: Sequence[Stage]) -> tuple[Screen, ...]:
    """Every stage, and every portion of one, in the order of hands."""
    found = [screen for stage in stages for screen in _of_stage(stage)]
    onward = [(screen.id, screen.title) for screen in found[1:]]
    return tuple(
        replace(screen, position=f"{at} of {len(found)}", onward=onward[at - 1] if at < len(found) else None)
        for at, screen in enumerate(found, 1)
    )


def _of_stage(stage: Stage) -> Iterator[Screen]:
    whole = Screen(
        id=stage.id,
        title=stage.title,
        position="",
        lead=stage.lead,
        tables=tuple(_ticks(stage.id, table) for table in stage.tables),
        order=tuple(
            Tick(name, said) for name, said in zip(_ids(stage.id, stage.order), stage.order, strict=True)
        ),
        says=stage.steps,
        close=() if stage.portions else stage.close,
    )
    yield whole
    for at, portion in enumerate(stage.portions, 1):
        yield _of_portion(stage, portion, stage.close if at == len(stage.portions) else ())


def _of_portion(stage: Stage, portion: PortionView, close: tuple[str, ...]) -> Screen:
    notes = (portion.note,) if portion.note is not None else ()
    return Screen(
        id=portion.id,
        title=portion.name,
        position="",
        note=f"{stage.title}: {portion.share}, {portion.batter}, {portion.volume}",
        tables=(_ticks(portion.id, portion.table),),
        says=(*notes, *portion.steps),
        close=close,
    )


def _ticks(home: str, table: Table) -> Ticks:
    names = _ids(home, [f"{table.caption} {line.what} {line.main}" for line in table.lines])
    lines = tuple(
        Tick(name, line.what, line.notes, line.main, line.beside)
        for name, line in zip(names, table.lines, strict=True)
    )
    return Ticks(table.caption, lines, table.total)


def _ids(home: str, said: Sequence[str]) -> Iterator[str]:
    """An id for each text of a screen. `_` stands in no name, so that no two of a page are alike."""
    before: Counter[str] = Counter()
    for text in said:
        name = f"tick_{home}_{links.anchor(text)}"
        before[name] += 1
        yield name if before[name] == 1 else f"{name}_{before[name]}"
