"""class-hours: a timetable whose hours run backwards."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from saponary.checks.listed import IN_CLASSES, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding, Place


def check(context: ProofContext) -> Iterator[Finding]:
    for read in context.book.classes:
        slots = read.plan.timetable if read.plan is not None else []
        for index, (before, slot) in enumerate(pairwise(slots), 1):
            if slot.at < before.at:
                span = read.tree.nearest(("timetable", index, "at"))
                place = Place(read.file, span.line, span.column) if span else Place(read.file)
                message = f"{slot.at} stands after {before.at}"
                yield Finding(RULE.name, "warning", place, message, "put the hours in their order", slot.at)


RULE = Rule(
    "class-hours",
    "sense",
    "The hours of a timetable are in order.",
    book=check,
    kinds=WARNING,
    waivable=IN_CLASSES,
    each="hour",
)
