"""The pages of classes. Where an edition is a student's, the class is its first page, and so is a list of several."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.book.classes import ClassFile, ClassPlan
from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import RECIPES, PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.class_page import class_links, class_page

Taught = tuple[ClassFile, ClassPlan, str]
"""A class, its plan, and the path of its page."""


def taught(context: PageContext) -> list[Taught]:
    """The classes all of whose recipes this edition shows; none where it does not give the formula in full."""
    site = context.site
    if site.edition.formula != "full":
        return []
    return [
        (read, read.plan, links.class_page(read.slug))
        for read in site.book.classes
        if read.plan is not None and class_page(read, read.plan, site, "") is not None
    ]


_LISTED = (*rests_on.FRAME, rests_on.CLASSES, rests_on.TITLES)


def _uses(plan: ClassPlan) -> tuple[str, ...]:
    recipes = (rests_on.recipe(slug) for slug in dict.fromkeys(plan.recipes))
    return (*_LISTED, rests_on.PANTRY, rests_on.PDFS, *recipes)


def _render(context: PageContext) -> Iterator[SiteFile]:
    found = taught(context)
    for read, plan, path in found:
        yield SiteFile(path, partial(_page, context, read, plan, path), _uses(plan))
    if found and context.site.edition.reader != "student":
        yield SiteFile(links.CLASSES, partial(_list, context, links.CLASSES), _LISTED)


def _first(context: PageContext) -> Iterator[SiteFile]:
    found = taught(context)
    if len(found) == 1:
        read, plan, _ = found[0]
        yield SiteFile(links.GALLERY, partial(_page, context, read, plan, links.GALLERY), _uses(plan))
    else:
        yield SiteFile(links.GALLERY, partial(_list, context, links.GALLERY), _LISTED)


def _page(context: PageContext, read: ClassFile, plan: ClassPlan, path: str) -> bytes:
    return context.page("class.html", path, lesson=class_page(read, plan, context.site, links.root(path)))


def _list(context: PageContext, path: str) -> bytes:
    return context.page("classes.html", path, classes=class_links(context.site, links.root(path)))


KIND = PageKind(
    "classes", _render, needs="work", readers=RECIPES, nav=NavEntry(message("nav.classes"), links.CLASSES)
)
FIRST = PageKind(
    "class-first",
    _first,
    needs="work",
    readers=("student",),
    nav=NavEntry(message("nav.class"), links.GALLERY),
)
"""The first page of a student's edition."""
