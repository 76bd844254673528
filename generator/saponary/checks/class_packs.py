"""class-packs: a pack that no recipe of the class uses."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.classes import made_by_a_student
from saponary.book.late import Seen
from saponary.checks.listed import IN_CLASSES, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.lye import lesson
from saponary.lye.figures import weigh
from saponary.reading.findings import Finding, Place


def check(context: ProofContext) -> Iterator[Finding]:
    built = Seen(context.recipes, lambda one: one.resolved)
    for read in context.book.classes:
        if read.plan is None or not read.plan.packs:
            continue
        made = made_by_a_student(read.plan, built, context.book.pantry)
        if made.keys() != set(read.plan.recipes):
            continue  # a recipe that cannot be computed has findings of its own, and may use it
        used = {
            weighing.id
            for one in made.values()
            for weighing in lesson.weighings(one.formula, weigh(one.formula), lambda grams: grams)
        }
        for name in read.plan.packs:
            if name not in used:
                span = read.tree.nearest(("packs", name), key=True)
                place = Place(read.file, span.line, span.column) if span else Place(read.file)
                message = f"no recipe of this class uses {name!r}"
                yield Finding(RULE.name, "warning", place, message, "leave this pack out", name)


RULE = Rule(
    "class-packs",
    "sense",
    "A shopping list counts packs. A pack of something that no recipe uses is probably a typing mistake.",
    book=check,
    kinds=WARNING,
    waivable=IN_CLASSES,
    each="pack",
)
