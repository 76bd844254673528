"""The page of rules set aside: every waiver of the book with its written reason, for the maker."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from saponary.pages import links
from saponary.pages.kind import Desk, PageKind, Sheet
from saponary.pages.views.gallery import in_order


@dataclass(frozen=True)
class Reasons:
    """One file's waivers: its name as shown, its page if it has one, and pairs of a rule and why."""

    name: str
    href: str
    rows: tuple[tuple[str, str], ...]


def reasons(desk: Desk) -> tuple[Reasons, ...]:
    """Recipes in the book's order, then the other files by name."""
    up = links.root(links.SET_ASIDE)
    found = [
        Reasons(
            recipe.case.model.title,
            up + links.recipe_page(recipe.slug),
            tuple((waiver.rule, waiver.because) for waiver in recipe.case.model.waive),
        )
        for recipe in in_order(desk.recipes)
        if recipe.case.model.waive
    ]
    waived = desk.site.book.waived
    for file in sorted({waiver.place.file for waiver in waived}):
        rows = tuple((waiver.rule, waiver.because) for waiver in waived if waiver.place.file == file)
        found.append(Reasons(file, "", rows))
    return tuple(found)


def _render(desk: Desk) -> Iterator[Sheet]:
    def write() -> bytes:
        return desk.page("set-aside.html", links.SET_ASIDE, files=reasons(desk))

    yield Sheet(links.SET_ASIDE, write)


KIND = PageKind("set-aside", _render, needs="waivers")
