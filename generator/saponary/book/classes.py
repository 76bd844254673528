"""Classes: `classes/NAME.md`, what is taught to how many, in which moulds, and when.

A class file is front matter and a lesson in Markdown, as a recipe is. Its figures are those
of its first recipe at the size that each student makes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import Field, model_validator

from saponary.book.catalogue import catalogue
from saponary.book.figure import MAX_FIGURES, Figure
from saponary.book.resolve import FILL, Resolved
from saponary.lye import lesson
from saponary.lye import mould as geometry
from saponary.lye.figures import weigh
from saponary.lye.formula import Formula, Stock
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import WeightUnit
from saponary.reading import front_matter as front
from saponary.reading.findings import Finding, has_errors
from saponary.reading.published_text import CLASS, Said, said
from saponary.reading.textfile import TextFile
from saponary.schema import validate as schema
from saponary.schema.fields import Date, Name, Part, PositiveMass, Share, ShortText, problem
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.waivers import Waived, Waivers, placed

ALKALIS = ("sodium-hydroxide", "potassium-hydroxide")
WATER = "water"


class Slot(Part):
    """A line of the timetable."""

    at: Public[Annotated[str, Field(pattern=r"^(?:[01][0-9]|2[0-3]):[0-5][0-9]$")]]
    """The time of day. In quotes."""
    what: Public[ShortText]
    """What happens then."""


class ClassPlan(Part):
    """Everything above the second `---` of a class file."""

    title: Public[Annotated[str, Field(min_length=1, max_length=120)]]
    """The name of the class. Example: title: First afternoon"""
    summary: Public[ShortText] = ""
    """What the class is, in a sentence. Example: summary: A bar of your own, from the oils up."""
    date: Public[Date | None] = None
    """The day it is held. Example: date: 2026-05-09"""
    place: Public[ShortText] = ""
    """Where it is held. Example: place: The back kitchen"""
    teacher: Public[ShortText] = ""
    """Who teaches. Example: teacher: Ines Harrowgate"""
    students: Public[Annotated[int, Field(ge=1, le=500)]]
    """How many students. Example: students: 6"""
    per_bench: Public[Annotated[int, Field(ge=1, le=100)]] = 2
    """How many students share a bench, and so one batch of lye solution. Example: per-bench: 2"""
    mould: Public[Name | None] = None
    """The mould that each student fills. Either this or `oils`. Example: mould: shells"""
    to: Public[Share | None] = None
    """How full each student's mould gets.
    Example:
      mould: shells
      to: 90 %
    """
    oils: Public[PositiveMass | None] = None
    """The weight of oils that each student takes. Either this or `mould`. Example: oils: 500 g"""
    recipes: Public[Annotated[list[Name], Field(min_length=1, max_length=12)]]
    """The recipes that are taught, by the names of their files. The figures of the lesson are those of the
    first.
    Example: recipes: [plain-bar]
    """
    timetable: Public[Annotated[list[Slot], Field(max_length=60)]] = []
    """The hours of the class.
    Example: timetable: [{at: "09:30", what: Goggles and gloves}, {at: "10:00", what: Lye}]
    """
    packs: Annotated[dict[Name, PositiveMass], Field(max_length=200), Seen("people")] = {}
    """The packs you buy, by ingredient. The shopping list counts in them.
    Example: packs: {olive: 1000 g, sodium-hydroxide: 500 g}
    """
    spare: Annotated[Share | None, Seen("people")] = None
    """How much more to buy than is needed. Example: spare: 10 %"""
    emergency: Public[ShortText] = ""
    """The emergency number where the class is held, where it is not the book's.
    Example: emergency: "112"
    """
    editions: Private[Annotated[list[Name], Field(max_length=20)]] = []
    """The editions that show this class. Example: editions: [class, maker]"""
    waive: Annotated[Waivers, Seen("waivers")] = []
    """Warnings about this class that you set aside, each with your reason.
    Example:
      title: An afternoon to heal a dull week
      waive:
      - {rule: claims, about: heal, because: it is the week that is healed}
    """

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
        return -(-self.students // self.per_bench)

    @property
    def last_bench(self) -> int:
        """How many stand at the last bench."""
        return self.students - (self.benches - 1) * self.per_bench


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
    if read.body.count("{") > MAX_FIGURES:
        message = f"this lesson opens more than {MAX_FIGURES} braces"
        place = read.place_at(read.body_start)
        read.findings.append(Finding("reading", "error", place, message, "keep fewer figures in the text"))
    read.plan = None if has_errors(read.findings) else plan
    return read


def sized(plan: ClassPlan, built: Resolved, shelf: Pantry, students: float = 1.0) -> Resolved | None:
    """A recipe at the size of so many students; None where the mould is not known."""
    if plan.oils is not None:
        factor = plan.oils.grams / built.formula.base_grams
        return Resolved(_dry(built.formula.scaled(factor * students)))
    mould = shelf.moulds.get(plan.mould or "")
    if mould is None:
        return None
    to = plan.to.fraction if plan.to else FILL
    factor = lesson.to_fill(built.formula, geometry.millilitres(mould) * to)
    bars = mould.count if mould.kind == "cavities" else None
    return Resolved(_dry(built.formula.scaled(factor * students)), mould, plan.mould, bars)


def _dry(formula: Formula) -> Formula:
    """A class weighs its alkali dry: that is what it is there to learn, and what it buys."""
    return replace(formula, stock=Stock())


def made_by_a_student(plan: ClassPlan, built: Mapping[str, Resolved], shelf: Pantry) -> dict[str, Resolved]:
    """What one student makes of each recipe of the class, where that can be worked out.

    `built` is by recipe.
    """
    return {
        slug: one
        for slug in dict.fromkeys(plan.recipes)
        if slug in built and (one := sized(plan, built[slug], shelf)) is not None
    }


def figures_of(
    read: ClassFile, built: Mapping[str, Resolved], shelf: Pantry, units: WeightUnit
) -> dict[str, Figure]:
    """The figures that a lesson may place or quote: its first recipe at each student's size.

    `built` is by recipe. There are none where that recipe or its size cannot be worked out.
    """
    plan = read.plan
    if plan is None or plan.recipes[0] not in built:
        return {}
    one = sized(plan, built[plan.recipes[0]], shelf)
    return dict(catalogue(weigh(one.formula), one, units)) if one is not None else {}
