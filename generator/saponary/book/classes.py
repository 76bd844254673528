"""Classes: `classes/NAME.md`, what is taught to how many, in which moulds, and when.

A class file is front matter and a lesson in Markdown, as a recipe is. Its figures are those
of its first recipe at the size that each student makes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import Field, model_validator

from saponary.book import quotes
from saponary.book.catalogue import Figure, catalogue, compare
from saponary.book.resolve import FILL, Resolved
from saponary.lye import lesson
from saponary.lye import mould as geometry
from saponary.lye.figures import weigh
from saponary.pantry.model import Pantry
from saponary.quantity.rounding import show
from saponary.quantity.units import QuantityError
from saponary.reading import front_matter as front
from saponary.reading.findings import Finding, Severity, suggest
from saponary.reading.published_text import CLASS, Said, said
from saponary.reading.reporter import Reporter
from saponary.reading.textfile import TextFile
from saponary.schema import validate as schema
from saponary.schema.fields import Date, Name, Part, PositiveMass, Share, ShortText, problem
from saponary.schema.waivers import Waived, Waivers, placed

RULE = "classes"
ALKALIS = ("sodium-hydroxide", "potassium-hydroxide")
WATER = "water"
_FAR = 0.01
"""Superfat that rounding to the scale may move before it is remarked on: common practice, no source."""


class Slot(Part):
    """A line of the timetable."""

    at: Annotated[str, Field(pattern=r"^(?:[01][0-9]|2[0-3]):[0-5][0-9]$")]
    what: ShortText


class ClassPlan(Part):
    """Everything above the second `---` of a class file."""

    title: Annotated[str, Field(min_length=1, max_length=120)]
    date: Date | None = None
    place: ShortText = ""
    teacher: ShortText = ""
    students: Annotated[int, Field(ge=1, le=500)]
    bench: Annotated[int, Field(ge=1, le=100)] = 2
    mould: Name | None = None
    to: Share | None = None
    oils: PositiveMass | None = None
    recipes: Annotated[list[Name], Field(min_length=1, max_length=12)]
    timetable: Annotated[list[Slot], Field(max_length=60)] = []
    packs: Annotated[dict[Name, PositiveMass], Field(max_length=200)] = {}
    spare: Share | None = None
    emergency: ShortText = ""
    editions: Annotated[list[Name], Field(max_length=20)] = []
    waive: Waivers = []

    @model_validator(mode="after")
    def one_size(self) -> ClassPlan:
        if (self.mould is None) == (self.oils is None):
            raise problem(
                "each student fills a mould or takes a weight of oils",
                "such as mould: loaf-10, or oils: 500 g",
            )
        if self.to is not None and (self.mould is None or self.to.fraction <= 0):
            raise problem("a fill above nothing goes with a mould", "such as mould: loaf-10 and to: 95 %")
        return self

    @property
    def spare_share(self) -> float:
        return self.spare.fraction if self.spare else 0.0

    @property
    def benches(self) -> int:
        return -(-self.students // self.bench)

    @property
    def last_bench(self) -> int:
        """How many stand at the last bench."""
        return self.students - (self.benches - 1) * self.bench


@dataclass
class ClassFile(TextFile):
    """One class as read. `plan` is None where the front matter does not hold."""

    plan: ClassPlan | None = None

    def texts(self) -> Iterator[Said]:
        """What it says on paper, and where that stands."""
        if self.plan is not None:
            yield from said(self.tree, self.file, CLASS)
            start = self.body_start
            yield Said(self.body, self.place_at(start), lambda offset: self.place_at(start + offset))

    def waived(self) -> tuple[Waived, ...]:
        """What it sets aside, and why."""
        return placed(self.plan.waive, self.tree, self.file) if self.plan is not None else ()


def parse_class(file: str, text: str) -> ClassFile:
    """A class from its text. `file` is its path in the book."""
    read = ClassFile(file, PurePosixPath(file).stem, text)
    if not front.read_into(read, "class", "begin with title:, students: and recipes:"):
        return read
    plan, faults = schema.validate(ClassPlan, read.tree, file)
    read.findings += faults
    if read.body.count("{") > quotes.MAX_FIGURES:
        message = f"this lesson opens more than {quotes.MAX_FIGURES} braces"
        place = read.place_at(read.body_start)
        read.findings.append(Finding("reading", "error", place, message, "keep fewer figures in the text"))
    read.plan = None if any(f.severity == "error" for f in read.findings) else plan
    return read


def sized(plan: ClassPlan, built: Resolved, shelf: Pantry, students: float = 1.0) -> Resolved | None:
    """A recipe at the size of so many students; None where the mould is not known."""
    if plan.oils is not None:
        factor = plan.oils.grams / built.formula.oils_grams
        return Resolved(built.formula.scaled(factor * students))
    mould = shelf.moulds.get(plan.mould or "")
    if mould is None:
        return None
    to = plan.to.fraction if plan.to else FILL
    factor = lesson.to_fill(built.formula, geometry.millilitres(mould) * to)
    bars = mould.count if mould.kind == "cavities" else None
    return Resolved(built.formula.scaled(factor * students), mould, plan.mould, bars)


def check(
    read: ClassFile, recipes: Collection[str], built: Mapping[str, Resolved], shelf: Pantry
) -> Iterator[Finding]:
    """What of a class the book does not hold, or the scale does not.

    `recipes` are all of the book, `built` those that could be computed.
    """
    plan = read.plan
    if plan is None:
        return
    report = Reporter(read.tree, read.file, RULE)
    for index, slug in enumerate(plan.recipes):
        if slug not in recipes:
            report.add(("recipes", index), f"there is no recipe {slug!r}", suggest(slug, recipes, "recipes"))
        elif slug in plan.recipes[:index]:
            report.add(("recipes", index), f"the recipe {slug!r} is named twice", "name each recipe once")
    if plan.mould is not None and plan.mould not in shelf.moulds:
        message = f"the mould {plan.mould!r} is not in the pantry"
        report.add(("mould",), message, suggest(plan.mould, shelf.moulds, "moulds"))
    for before, (index, slot) in zip(plan.timetable, enumerate(plan.timetable[1:], 1), strict=False):
        if slot.at < before.at:
            message = f"{slot.at} stands after {before.at}"
            report.add(("timetable", index, "at"), message, "put the hours in their order", "warning")
    made = {
        slug: one
        for slug in dict.fromkeys(plan.recipes)
        if slug in built and (one := sized(plan, built[slug], shelf)) is not None
    }
    _packs(plan, made, shelf, report)
    for slug, one in made.items():
        _on_the_scale(plan, slug, one, report)
    yield from report.findings
    figures = figures_of(read, built, shelf)
    if figures:
        yield from _figures(read, figures)


def _packs(plan: ClassPlan, made: Mapping[str, Resolved], shelf: Pantry, report: Reporter) -> None:
    known = {*shelf.oils, *shelf.liquids, *shelf.additions, *ALKALIS, WATER}
    used = {
        w.id for one in made.values() for w in lesson.weighings(one.formula, weigh(one.formula), lambda g: g)
    }
    for name in plan.packs:
        if name not in known:
            message = f"{name!r} is not in the pantry"
            report.add(("packs", name), message, suggest(name, known, "ingredients"), key=True)
        elif made and name not in used:
            message, hint = f"no recipe of this class uses {name!r}", "leave this pack out"
            report.add(("packs", name), message, hint, "warning", key=True)


def _on_the_scale(plan: ClassPlan, slug: str, one: Resolved, report: Reporter) -> None:
    """A batch for one student is small: the scale's step must still hold its superfat."""
    figures = weigh(one.formula)
    off = figures.superfat_as_weighed - figures.superfat
    if figures.superfat_as_weighed >= 0 and abs(off) <= _FAR:
        return
    message = (
        f"at this size {slug} has a superfat of {show(100 * figures.superfat_as_weighed, 1)} % once its weights are "
        f"rounded to {show(one.formula.scale_step, 2)} g, instead of {show(100 * figures.superfat, 1)} %"
    )
    path = ("oils",) if plan.oils is not None else ("mould",)
    severity: Severity = "error" if figures.superfat_as_weighed < 0 <= figures.superfat else "warning"
    report.add(path, message, "make more of it, or use a finer scale", severity)


def figures_of(read: ClassFile, built: Mapping[str, Resolved], shelf: Pantry) -> dict[str, Figure]:
    """The figures that a lesson may place or quote: its first recipe at each student's size.

    `built` is by recipe. There are none where that recipe or its size cannot be worked out.
    """
    plan = read.plan
    if plan is None or plan.recipes[0] not in built:
        return {}
    one = sized(plan, built[plan.recipes[0]], shelf)
    return dict(catalogue(weigh(one.formula), one)) if one is not None else {}


def _figures(read: ClassFile, figures: Mapping[str, Figure]) -> Iterator[Finding]:
    """Figures of the lesson that there are not, or that no longer hold."""
    for offset in quotes.loose_in_notes(read.body, offset=read.body_start):
        message = "a value stands in braces here that is no figure"
        yield Finding(RULE, "error", read.place_at(offset), message, "name a figure, such as {lye = 138.7 g}")
    for quote in quotes.in_notes(read.body, offset=read.body_start):
        place = read.place_at(quote.start)
        figure = figures.get(quote.name)
        if figure is None:
            hint = f"{suggest(quote.name, figures, 'figures')} (a plain brace is written \\{{)"
            yield Finding(RULE, "error", place, f"there is no figure {quote.name!r}", hint)
        elif quote.value is not None:
            place = read.place_at(quote.value_start)
            try:
                compared = compare(figure, quote.value)
            except QuantityError as error:
                yield Finding(RULE, "error", place, str(error), error.hint)
                continue
            if not compared.holds:
                message = (
                    f"{figure.name} is quoted as {quote.value} and is now {compared.recomputed}, "
                    "in the first recipe at each student's size"
                )
                hint = f"if the class is right, run: saponary restate {read.slug}"
                yield Finding("stale", "error", place, message, hint)
