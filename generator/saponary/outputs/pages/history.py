"""The history of each recipe's formula, and what changed in the book: where the book is kept in git."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from saponary.book.published import Published
from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.at_class import left_blank
from saponary.views.history import MOST, ChangeView, changes, history, in_their_order, latest, together


def _render(context: PageContext) -> Iterator[SiteFile]:
    told = told_of(context)
    if told:
        histories = (rests_on.history(recipe.slug) for recipe in told)
        rests = (*rests_on.FRAME, *rests_on.recipes(told), *histories)
        yield SiteFile(links.CHANGES, partial(_changes, context, told), rests)


def _each(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    if _is_told(context, recipe):
        path = links.history(recipe.slug)
        uses = (*rests_on.FRAME, rests_on.recipe(recipe.slug), rests_on.history(recipe.slug))
        yield SiteFile(path, partial(_page, context, recipe, path), uses, recipe.slug)


def told_of(context: PageContext) -> list[Published]:
    """The recipes whose versions an edition tells."""
    return [one for one in context.recipes if _is_told(context, one)]


def _is_told(context: PageContext, recipe: Published) -> bool:
    """No version is told that would tell what students are to work out."""
    site = context.site
    return bool(site.versions.get(recipe.slug)) and not left_blank(recipe, site)


def _page(context: PageContext, recipe: Published, path: str) -> bytes:
    return context.page("history.html", path, history=history(recipe, context.site, links.root(path)))


def book_changes(
    context: PageContext, told: Sequence[Published], up: str, most: int = MOST
) -> tuple[ChangeView, ...]:
    """The latest versions of all these recipes, the very latest first."""
    site = context.site
    wanted = latest((recipe.slug for recipe in told), site, most)
    slugs = {slug for slug, _ in wanted}
    rows = context.rows.all(
        f"changes {up}",
        ChangeView,
        [recipe for recipe in told if recipe.slug in slugs],
        rests_on.ROW_OF_CHANGES,
        lambda one: changes(one, site, up),
    )
    return in_their_order(rows.found(), wanted)


def _changes(context: PageContext, told: Sequence[Published]) -> bytes:
    found = book_changes(context, told, links.root(links.CHANGES))
    return context.page("changes.html", links.CHANGES, changes=together(found))


KIND = PageKind(
    "history", _render, _each, needs="history", nav=NavEntry(message("nav.changes"), links.CHANGES)
)
