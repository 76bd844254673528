"""A class as its students see it on screen: the day, the place, the timetable, what to print, what each makes.

The weights are those of the handout's student's copy, so that what is left blank there is blank here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.classes import ClassFile, ClassPlan
from saponary.book.published import Published
from saponary.messages.message import Listed, Message, Value, Within, day, message
from saponary.quantity.numbers import Scale, WeightUnit
from saponary.views import links
from saponary.views.batches import Photo
from saponary.views.facts import as_written
from saponary.views.lead_photo import lead_photo
from saponary.views.paper.handout import Handout, RecipePages, handout
from saponary.views.paper.handout_weights import ClassWeight, ClassWeights
from saponary.views.printed import Printed, of_class, of_recipe
from saponary.views.prose import Prose
from saponary.views.prose_links import Links
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class Paper:
    """Something to print: what it is, and its PDFs."""

    name: Message | str
    sheets: tuple[Printed, ...]


class ClassRecipe(NamedTuple):
    """A recipe of the class; `photo` is None where there is none. `blanks` counts what a student works out."""

    title: str
    href: str
    bench_href: str
    photo: Photo | None
    drawing: str
    size: Value | None
    """None where an oil is left blank, which the sum would give away."""
    weights: ClassWeights
    weighed: tuple[ClassWeight, ...]
    """What each student weighs; `for_you` is too little for the scale, and weighed for the whole bench."""
    for_you: Listed | None
    blanks: int


class ClassPage(NamedTuple):
    title: str
    summary: str
    calendar: str
    """The address of its day as a calendar file; '' where no day is set."""
    facts: tuple[tuple[Message, Value], ...]
    timetable: tuple[tuple[str, str], ...]
    papers: tuple[Paper, ...]
    recipes: tuple[ClassRecipe, ...]
    lesson: Markup | None
    emergency: Value
    unit: str


class ClassLink(NamedTuple):
    """A class in a list of several."""

    title: str
    href: str
    day: Value


def class_page(read: ClassFile, plan: ClassPlan, site: SiteInput, up: str) -> ClassPage | None:
    """None where this edition does not show every recipe of the class. `up` leads to the top of the site."""
    sheet = handout(read, plan, site, answers=False)
    if sheet is None:
        return None
    recipes = [site.by_slug[slug] for slug in plan.recipes]
    made = zip(recipes, sheet.recipes, strict=True)
    return ClassPage(
        title=sheet.title,
        summary=plan.summary,
        calendar=up + links.class_day(read.slug) if plan.date is not None else "",
        facts=tuple(_facts(plan, sheet, site.book.settings.units)),
        timetable=sheet.timetable,
        papers=tuple(_papers(read, recipes, site, up)),
        recipes=tuple(_recipe(recipe, pages, site, up) for recipe, pages in made),
        lesson=sheet.lesson,
        emergency=sheet.emergency,
        unit=sheet.unit,
    )


def _facts(plan: ClassPlan, sheet: Handout, units: WeightUnit) -> Iterator[tuple[Message, Value]]:
    if plan.date is not None:
        when: Value = day(plan.date, "weekday")
        if plan.timetable:
            when = message("class.from", day=when, at=plan.timetable[0].at)
        yield message("handout.day"), when
    if plan.place:
        yield message("handout.place"), plan.place
    if plan.teacher:
        yield message("handout.teacher-name"), plan.teacher
    yield message("class.you-are"), message("class.students", count=plan.students, bench=plan.per_bench)
    if plan.oils is not None:
        yield message("class.each-makes"), message("handout.of-oils", oils=as_written(plan.oils, units))
    else:
        mould = message("handout.one-mould", mould=(plan.mould or "").replace("-", " "))
        bars = {pages.one.computed.resolved.bars for pages in sheet.recipes}
        many = bars.pop() if len(bars) == 1 else None
        yield message("class.each-makes"), message("class.bars", mould=mould, count=many) if many else mould


def _papers(read: ClassFile, recipes: Sequence[Published], site: SiteInput, up: str) -> Iterator[Paper]:
    for copy, name in (
        ("student", message("class.student-copy")),
        ("teacher", message("class.teacher-copy")),
    ):
        if sheets := of_class(read.slug, copy, site, up):
            yield Paper(name, sheets)
    for recipe in recipes:
        if sheets := of_recipe(recipe.slug, site, up):
            title = Prose(recipe.catalogue).title(recipe.model.title)
            yield Paper(message("class.sheet", recipe=title), sheets)


def _recipe(recipe: Published, pages: RecipePages, site: SiteInput, up: str) -> ClassRecipe:
    prose, settings = Prose(recipe.catalogue, Links(up=up)), site.book.settings
    scale = Scale(settings.scale_step_grams, settings.units)
    small = [line for line in pages.weights.lines if too_little(line, scale)]
    return ClassRecipe(
        title=prose.title(recipe.model.title),
        href=up + links.recipe_page(recipe.slug),
        bench_href=up + links.at_the_bench(recipe.slug),
        photo=lead_photo(recipe, site, prose),
        drawing=up + links.drawing(recipe.slug, "cured"),
        size=pages.size,
        weights=pages.weights,
        weighed=tuple(line for line in pages.weights.lines if not too_little(line, scale)),
        for_you=Listed(tuple(Within(w) if isinstance(w := line.what, str) else w for line in small))
        if small
        else None,
        blanks=sum(line.student is None for line in pages.weights.lines),
    )


def too_little(line: ClassWeight, scale: Scale) -> bool:
    """Whether a student's part is under two steps of the scale; what is left blank is not told of."""
    return line.student is not None and line.student.value < 2 * scale.step_shown


def class_links(site: SiteInput, up: str) -> tuple[ClassLink, ...]:
    """Every class of an edition, the earliest first."""
    plans = [(read, read.plan) for read in site.book.classes if read.plan is not None]
    plans.sort(key=lambda pair: (str(pair[1].date or ""), pair[0].slug))
    return tuple(
        ClassLink(plan.title, up + links.class_page(read.slug), day(plan.date) if plan.date else "")
        for read, plan in plans
    )
