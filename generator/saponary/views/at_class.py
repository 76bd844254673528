"""A recipe as the students of a class see it on screen: at their size, and without what they are to work out.

The weights, texts and blanks are those of the student's copy of the handout.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from saponary.book.classes import ClassFile, ClassPlan
from saponary.book.published import Published
from saponary.messages.message import Message, message
from saponary.quantity.numbers import Scale
from saponary.views import links
from saponary.views.paper.handout_bench import ClassBench, at_class_size, class_bench, stages
from saponary.views.paper.handout_prose import blanks
from saponary.views.prose import Prose
from saponary.views.site import SiteInput
from saponary.views.work import WorkOrder


@dataclass(frozen=True)
class AtClass:
    """A recipe of a class. `size` is None where it would give away what is left blank."""

    title: str
    href: str
    """Of the class, from the top of the site."""
    size: Message | None
    bench: ClassBench
    blank: frozenset[str]

    @property
    def work(self) -> WorkOrder:
        """The work order, its blanks left blank."""
        scale, settings = self.bench.scale, self.bench.computed.settings
        beside = scale.beside if settings.both_units else ""
        return WorkOrder(scale.unit, beside, stages(self.bench, self.blank))

    def prose(self, own: Prose) -> Prose:
        """A text of the recipe at this size, leading where it led before."""
        return replace(self.bench.prose, links=own.links, pictures=own.pictures, name=own.name)


def at_class(recipe: Published, site: SiteInput) -> AtClass | None:
    """A recipe at the size of its class; of several, the first. None where it is of none, and but for students."""
    taught = taught_in(recipe.slug, site)
    if taught is None:
        return None
    read, plan = taught
    moulds = site.book.pantry.moulds
    one = at_class_size(replace(recipe, pantry=replace(recipe.pantry, moulds=moulds)), plan)
    if one is None:
        return None
    blank, settings = left_blank(recipe, site), site.book.settings
    scale = Scale(settings.scale_step_grams, settings.units)
    bench = class_bench(one, scale, answers=False, blank=blank)
    base = bench.weight(one.resolved.formula.base_grams)
    key = "handout.size" if one.resolved.formula.weighs_lye else "handout.size-soap"
    gives = any(name == "oils" or name.startswith("oil ") for name in blank)
    several = sum(other.plan is not None for other in site.book.classes) > 1
    return AtClass(
        title=Prose(one.catalogue).title(plan.title),
        href=links.class_page(read.slug) if several else links.GALLERY,
        size=None if gives else message(key, oils=base),
        bench=bench,
        blank=blank,
    )


def taught_in(slug: str, site: SiteInput) -> tuple[ClassFile, ClassPlan] | None:
    """The first class of a student's edition that makes a recipe."""
    if site.edition.reader != "student" or site.edition.formula != "full":
        return None
    found = [(read, read.plan) for read in site.book.classes if read.plan is not None]
    found = [(read, plan) for read, plan in found if slug in plan.recipes]
    return min(found, key=lambda pair: (str(pair[1].date or ""), pair[0].slug), default=None)


def left_blank(recipe: Published, site: SiteInput) -> frozenset[str]:
    """The figures of a recipe that students of this edition work out: of every class that makes it."""
    if site.edition.reader != "student":
        return frozenset()
    lessons = [
        read.body
        for read in site.book.classes
        if read.plan is not None and read.plan.recipes and read.plan.recipes[0] == recipe.slug
    ]
    return blanks(recipe.notes, *lessons)
