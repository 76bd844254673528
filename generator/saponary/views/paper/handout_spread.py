"""A recipe on two facing pages of a student's copy: the work order with lines to write on, and the record.

Each weight stands once, for one student. One that a single student cannot weigh well stands as it is weighed
for the bench, or for the whole class, and is divided.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.classes import ClassPlan
from saponary.messages.message import Message, Value, message, percent
from saponary.quantity.numbers import Scale
from saponary.views import links
from saponary.views.drawings import Drawings
from saponary.views.paper.handout import RecipePages
from saponary.views.paper.handout_bench import ClassBench, at_class_size, class_bench, stages
from saponary.views.paper.record_fields import RecordFields
from saponary.views.paper.weekly import weekly_days
from saponary.views.prose import Prose, first_sentence
from saponary.views.recipe import FaceWords, face_words
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighLine, WeighTable

STEPS = 2
"""What a weighing must come to on the scale, in steps of it: under that a rounded weight is wrong by a quarter."""
_HEADING = re.compile(r"^#{1,6} ", re.MULTILINE)


class Spread(NamedTuple):
    """One recipe. `fresh` and `cured` are addresses of its drawing; `days` are those of the weighings."""

    title: str
    collection: str
    summary: Markup | None
    size: Message | None
    superfat: Message | None
    fresh: str
    cured: str
    faces: FaceWords
    stages: tuple[Stage, ...]
    record: RecordFields
    days: tuple[int, ...]
    notes: Markup | None


def spread(plan: ClassPlan, pages: RecipePages, drawings: Drawings) -> Spread:
    """The two pages of one recipe; `pages` is what the class makes of it."""
    one, written = pages.one, pages.written
    summary = written.model.summary
    title = Prose(written.catalogue).title(written.model.title)
    return Spread(
        title=pages.title,
        collection=written.model.collection or "",
        summary=one.prose.inline(first_sentence(summary)) if summary else None,
        size=pages.size,
        superfat=None if pages.weights.nominal is None else _superfat(one),
        fresh=links.drawing(written.slug, "fresh"),
        cured=links.drawing(written.slug, "cured"),
        faces=face_words(written, title, drawings.of(written)),
        stages=together(stages(one, pages.blank), _groups(plan, pages), one.scale),
        record=pages.record,
        days=weekly_days(written),
        notes=_last_section(one, written.notes),
    )


def _superfat(bench: ClassBench) -> Message:
    return message("handout.size-superfat", superfat=percent(bench.computed.figures.superfat))


def _groups(plan: ClassPlan, pages: RecipePages) -> list[tuple[int, tuple[Stage, ...]]]:
    """The work order of a bench and of the whole class, by how many students each is."""
    found: list[tuple[int, tuple[Stage, ...]]] = []
    for count in sorted({min(plan.per_bench, plan.students), plan.students} - {1}):
        computed = at_class_size(pages.written, plan, count)
        assert computed is not None
        made = replace(class_bench(computed, pages.one.scale, answers=False), hidden=pages.one.hidden)
        found.append((count, stages(made, frozenset())))
    return found


def together(
    alone: tuple[Stage, ...], groups: Sequence[tuple[int, tuple[Stage, ...]]], scale: Scale
) -> tuple[Stage, ...]:
    """The stages of one student, in which each weight under two steps of the scale is that of a group.

    It is that of the smallest group whose weight reaches two steps, else of the largest; a note says
    for how many it is.
    """

    def line(made: WeighLine, others: Sequence[tuple[int, WeighLine]]) -> WeighLine:
        if made.main is None or made.grams >= STEPS * scale.step or not others:
            return made
        count, shared = next(((n, o) for n, o in others if o.grams >= STEPS * scale.step), others[-1])
        for_all = message("handout.for-all", count=count)
        return replace(made, main=shared.main, notes=(for_all, *_finer(shared)))

    def table(made: WeighTable, others: Sequence[tuple[int, WeighTable]]) -> WeighTable:
        lines = tuple(
            line(each, [(count, other.lines[at]) for count, other in others])
            for at, each in enumerate(made.lines)
        )
        return replace(made, lines=lines)

    def stage(made: Stage, others: Sequence[tuple[int, Stage]]) -> Stage:
        tables = tuple(
            table(each, [(count, other.tables[at]) for count, other in others])
            for at, each in enumerate(made.tables)
        )
        portions = tuple(
            replace(
                each, table=table(each.table, [(count, other.portions[at].table) for count, other in others])
            )
            for at, each in enumerate(made.portions)
        )
        return replace(made, tables=tables, portions=portions)

    return tuple(
        stage(each, [(count, other[at]) for count, other in groups]) for at, each in enumerate(alone)
    )


def _finer(made: WeighLine) -> Iterator[Value]:
    """That the weight is finer than the scale, where it is."""
    yield from (note for note in made.notes if isinstance(note, Message) and note.key == "work.finer")


def _last_section(bench: ClassBench, notes: str) -> Markup | None:
    """What the maker's notes end with, which is for after the day; all of them where they have no headings."""
    heads = [found.start() for found in _HEADING.finditer(notes)]
    made = bench.prose.block(notes[heads[-1] :] if heads else notes, top=4)
    return made if made.strip() else None
