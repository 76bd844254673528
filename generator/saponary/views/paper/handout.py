"""The handout of a class: the student's copy, and the teacher's with answers and preparation."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.classes import ClassFile, ClassPlan
from saponary.book.published import Published
from saponary.label.cautions import emergency
from saponary.messages.message import Message, Value, day, message
from saponary.quantity.numbers import Scale, WeightUnit
from saponary.views.facts import as_written
from saponary.views.paper.handout_bench import ClassBench, at_class_size, class_bench, stages
from saponary.views.paper.handout_prep import Preparation, preparation
from saponary.views.paper.handout_prose import SUPERFAT, ClassProse, blanks
from saponary.views.paper.handout_safety import Safety, safety
from saponary.views.paper.handout_weights import ClassWeights, class_weights
from saponary.views.paper.record_fields import RecordFields, record_fields
from saponary.views.prose import Prose
from saponary.views.site import SiteInput
from saponary.views.stages.stage import Stage


class RecipePages(NamedTuple):
    """One recipe of the class at the student's size, in grams of oils as weighed."""

    title: str
    size: Message | None
    """None where an oil is left blank, which the sum would give away."""
    weights: ClassWeights
    stages: tuple[Stage, ...]
    notes: Markup | None
    record: RecordFields
    written: Published
    """The recipe as its maker has it, with the moulds of the book."""
    one: ClassBench
    """The bench of one student, with what is hidden there."""
    blank: frozenset[str]
    """The figures left blank on this copy."""


class Handout(NamedTuple):
    """Everything `press/handout.html` prints. `answers` on the teacher's copy."""

    title: str
    answers: bool
    facts: tuple[tuple[Message, Value], ...]
    timetable: tuple[tuple[str, str], ...]
    lesson: Markup | None
    emergency: Value
    safety: Safety
    recipes: tuple[RecipePages, ...]
    preparation: Preparation | None
    unit: str


def handout(read: ClassFile, plan: ClassPlan, site: SiteInput, *, answers: bool) -> Handout | None:
    """One copy; None where this edition does not show every recipe of the class."""
    # A class may be taught in a mould that is none of the recipe's own.
    moulds = site.book.pantry.moulds
    shown = {
        slug: replace(recipe, pantry=replace(recipe.pantry, moulds=moulds))
        for slug in dict.fromkeys(plan.recipes)
        if (recipe := site.by_slug.get(slug)) is not None
    }
    recipes = [shown[slug] for slug in plan.recipes if slug in shown]
    ones = [one for computed in recipes if (one := at_class_size(computed, plan)) is not None]
    if len(ones) < len(plan.recipes):
        return None
    settings = site.book.settings
    scale = Scale(settings.scale_step_grams, settings.units)
    lesson = read.body
    titled = [
        (Prose(one.catalogue).title(one.model.title), computed)
        for one, computed in zip(ones, recipes, strict=True)
    ]
    figures = ones[0].catalogue
    first = ClassProse(figures, gaps=blanks(lesson, recipes[0].notes), answers=answers)
    body = first.block(lesson, top=2)
    return Handout(
        title=first.title(plan.title),
        answers=answers,
        facts=tuple(_facts(plan, [title for title, _ in titled], settings.units)),
        timetable=tuple((slot.at, slot.what) for slot in plan.timetable),
        lesson=body if body.strip() else None,
        emergency=emergency(plan.emergency or settings.emergency),
        safety=safety(recipes),
        recipes=tuple(
            _pages(plan, title, computed, scale, answers, blanks(lesson) if index == 0 else frozenset())
            for index, (title, computed) in enumerate(titled)
        ),
        preparation=preparation(plan, titled, scale) if answers else None,
        unit=settings.units,
    )


def _facts(plan: ClassPlan, titles: list[str], units: WeightUnit) -> Iterator[tuple[Message, Value]]:
    if plan.date:
        yield message("handout.day"), day(plan.date, "weekday")
    if plan.place:
        yield message("handout.place"), plan.place
    if plan.teacher:
        yield message("handout.teacher-name"), plan.teacher
    yield message("handout.students"), plan.students
    yield message("handout.benches"), _benches(plan)
    each = message("handout.one-mould", mould=(plan.mould or "").replace("-", " "))
    if plan.oils is not None:
        each = message("handout.of-oils", oils=as_written(plan.oils, units))
    yield message("handout.makes"), message("handout.of-each", each=each) if len(titles) > 1 else each
    yield message("handout.recipes"), "; ".join(titles)


def _benches(plan: ClassPlan) -> Message:
    if plan.benches == 1:
        return message("handout.one-bench")
    if plan.last_bench < plan.per_bench:
        return message(
            "handout.benches-and-one", full=plan.benches - 1, each=plan.per_bench, last=plan.last_bench
        )
    return message("handout.benches-of", full=plan.benches, each=plan.per_bench)


def _pages(
    plan: ClassPlan, title: str, computed: Published, scale: Scale, answers: bool, of_lesson: frozenset[str]
) -> RecipePages:
    one, together = (
        at_class_size(computed, plan),
        at_class_size(computed, plan, min(plan.per_bench, plan.students)),
    )
    assert one is not None and together is not None
    blank = of_lesson | blanks(computed.notes)
    hidden: Mapping[str, ClassBench] = {
        "one": class_bench(one, scale, answers=answers, blank=blank),
        "bench": class_bench(together, scale, answers=answers, blank=blank),
    }
    notes = hidden["one"].prose.block(computed.notes)
    bare = not answers and bool(blank & SUPERFAT)
    of_oils = any(name == "oils" or name.startswith("oil ") for name in hidden["one"].hidden)
    return RecipePages(
        title=title,
        size=None if of_oils else _size(hidden["one"]),
        weights=class_weights(plan, title, hidden["one"], hidden["bench"], bare),
        stages=stages(hidden["one"], frozenset() if answers else blank),
        notes=notes if notes.strip() else None,
        record=record_fields(computed.model.by, scale.unit),
        written=computed,
        one=hidden["one"],
        blank=frozenset() if answers else blank,
    )


def _size(bench: ClassBench) -> Message:
    """How much of oils, or of soap to melt, each student has."""
    formula = bench.computed.resolved.formula
    base = bench.weight(formula.base_grams)
    return (
        message("handout.size", oils=base) if formula.weighs_lye else message("handout.size-soap", soap=base)
    )
