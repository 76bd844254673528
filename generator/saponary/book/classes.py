"""Classes: `classes/NAME.md`, what is taught to how many, in which moulds, and when.

A class file is front matter and a lesson in Markdown, as a recipe is. Its figures are those
of its first recipe at the size that each student makes.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from saponary.book import quotes
from saponary.book.catalogue import Figure, catalogue
from saponary.book.resolve import FILL, Resolved
from saponary.lye import lesson
from saponary.lye import mould as geometry
from saponary.lye.figures import weigh
from saponary.pantry.model import Pantry
from saponary.reading import front_matter as front
from saponary.reading.findings import Finding
from saponary.reading.published_text import CLASS, Said, said
from saponary.reading.textfile import TextFile
from saponary.schema import validate as schema
from saponary.schema.class_plan import ClassPlan
from saponary.schema.waivers import Waived, placed

ALKALIS = ("sodium-hydroxide", "potassium-hydroxide")
WATER = "water"


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


def made_by_a_student(plan: ClassPlan, built: Mapping[str, Resolved], shelf: Pantry) -> dict[str, Resolved]:
    """What one student makes of each recipe of the class, where that can be worked out.

    `built` is by recipe.
    """
    return {
        slug: one
        for slug in dict.fromkeys(plan.recipes)
        if slug in built and (one := sized(plan, built[slug], shelf)) is not None
    }


def figures_of(read: ClassFile, built: Mapping[str, Resolved], shelf: Pantry) -> dict[str, Figure]:
    """The figures that a lesson may place or quote: its first recipe at each student's size.

    `built` is by recipe. There are none where that recipe or its size cannot be worked out.
    """
    plan = read.plan
    if plan is None or plan.recipes[0] not in built:
        return {}
    one = sized(plan, built[plan.recipes[0]], shelf)
    return dict(catalogue(weigh(one.formula), one)) if one is not None else {}
