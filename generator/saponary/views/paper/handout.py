"""The handout of a class: the student's copy, and the teacher's with answers and preparation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from saponary.book.classes import ClassFile, ClassPlan
from saponary.book.computed import Computed
from saponary.label.cautions import emergency
from saponary.messages.message import Value
from saponary.quantity.numbers import Scale
from saponary.views.paper.handout_bench import ClassBench, at_class_size, class_bench, stages
from saponary.views.paper.handout_prep import Preparation, preparation
from saponary.views.paper.handout_prose import ClassProse, blanks
from saponary.views.paper.handout_safety import Safety, safety
from saponary.views.paper.handout_weights import WeighSheet, weigh_sheet
from saponary.views.prose import Prose
from saponary.views.site import SiteInput
from saponary.views.work import Stage

_SUPERFAT = frozenset({"superfat", "superfat-as-weighed"})


@dataclass(frozen=True)
class RecipePages:
    """One recipe of the class at the student's size."""

    title: str
    size: str
    weights: WeighSheet
    stages: tuple[Stage, ...]
    notes: Markup | None
    notes_size: str


@dataclass(frozen=True)
class Handout:
    """Everything `press/handout.html` prints."""

    title: str
    copy_name: str
    facts: tuple[tuple[str, str], ...]
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
        recipe.slug: replace(recipe.computed, pantry=replace(recipe.computed.pantry, moulds=moulds))
        for recipe in site.recipes
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
    first = ClassProse(figures, own=figures, gaps=blanks(lesson, recipes[0].notes), answers=answers)
    body = first.block(lesson, top=2)
    return Handout(
        title=first.title(plan.title),
        copy_name="Teacher's copy, with answers" if answers else "Student's copy",
        facts=tuple(_facts(plan, [title for title, _ in titled])),
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


def _facts(plan: ClassPlan, titles: list[str]) -> list[tuple[str, str]]:
    benches = f"{plan.benches} of {plan.bench}" if plan.benches > 1 else "one"
    if plan.benches > 1 and plan.last_bench < plan.bench:
        benches = f"{plan.benches - 1} of {plan.bench}, and one of {plan.last_bench}"
    each = f"{plan.oils.text.strip()} of oils" if plan.oils is not None else f"one mould {plan.mould}"
    found = [
        ("Day", plan.date.isoformat() if plan.date else ""),
        ("Place", plan.place),
        ("Teacher", plan.teacher),
        ("Students", str(plan.students)),
        ("Benches", benches),
        ("Each student makes", f"{each}, of each recipe" if len(titles) > 1 else each),
        ("Recipes", "; ".join(titles)),
    ]
    return [(label, text) for label, text in found if text]


def _pages(
    plan: ClassPlan, title: str, computed: Computed, scale: Scale, answers: bool, of_lesson: frozenset[str]
) -> RecipePages:
    one, together = (
        at_class_size(computed, plan),
        at_class_size(computed, plan, min(plan.bench, plan.students)),
    )
    assert one is not None and together is not None
    blank = of_lesson | blanks(computed.notes)
    hidden: Mapping[str, ClassBench] = {
        "one": class_bench(one, scale, answers=answers, blank=blank),
        "bench": class_bench(together, scale, answers=answers, blank=blank),
    }
    notes = ClassProse(computed.catalogue, own=one.catalogue, answers=answers).block(computed.notes)
    bare = not answers and bool(blank & _SUPERFAT)
    oils = scale.weigh(one.figures.oils)
    written = scale.weigh(computed.figures.oils)
    return RecipePages(
        title=title,
        size=f"{oils.main} {scale.unit} of oils for each student",
        weights=weigh_sheet(plan, title, hidden["one"], hidden["bench"], bare),
        stages=stages(hidden["one"], frozenset() if answers else blank),
        notes=notes if notes.strip() else None,
        notes_size=f"They speak of the maker's batch of {written.main} {scale.unit} of oils, not of your size.",
    )
