"""The history of formulas: of one recipe its versions, of the book what changed, the latest first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from saponary.book.changes import Version
from saponary.book.published import Published
from saponary.draw.charts.course import course
from saponary.lye.fingerprint import matches
from saponary.messages.message import Day, Value, message
from saponary.messages.speaker import speaker
from saponary.views import links
from saponary.views.prose import Prose
from saponary.views.site import SiteInput

MOST = 200
"""Changes that the page of the whole book lists."""
_FIRST = ("lye", "water", "superfat", "oils", "grated-soap")


@dataclass(frozen=True)
class MovedRow:
    """One figure before and after, as shown; `name` as a recipe's text would place it."""

    name: str
    before: Value
    after: Value
    by: str


@dataclass(frozen=True)
class VersionView:
    """One version: its day, what was said of it, its fingerprint, the lots made to it, and what it moved."""

    day: Day
    about: str
    commit: str
    fingerprint: str
    lots: tuple[str, ...]
    moved: tuple[MovedRow, ...]
    rest: tuple[MovedRow, ...]
    """Figures of less weight: of portions, and those that follow from others."""
    first: bool


@dataclass(frozen=True)
class HistoryView:
    title: str
    home: str
    versions: tuple[VersionView, ...]
    chart: str
    """How lye and superfat went, as an inline SVG; '' where there are fewer than two versions."""


@dataclass(frozen=True)
class ChangeView:
    """A change of one recipe, in the book's list."""

    slug: str
    title: str
    href: str
    version: VersionView


def history(recipe: Published, site: SiteInput, up: str) -> HistoryView:
    """What is known of a recipe's versions."""
    found = site.versions.get(recipe.slug, ())
    title = Prose(recipe.catalogue).title(recipe.model.title)
    return HistoryView(
        title=title,
        home=up + links.recipe_page(recipe.slug),
        versions=tuple(_version(one, recipe, site, first=one is found[-1]) for one in found),
        chart=_chart(found, site),
    )


def book_changes(recipes: Iterable[Published], site: SiteInput, up: str) -> tuple[ChangeView, ...]:
    """Every version of every recipe, the latest first; of one day, by the recipes' names."""
    found = [(one, recipe) for recipe in recipes for one in site.versions.get(recipe.slug, ())]
    found.sort(key=lambda pair: (-pair[0].on.toordinal(), pair[1].slug))
    return tuple(
        ChangeView(
            recipe.slug,
            Prose(recipe.catalogue).title(recipe.model.title),
            up + links.history(recipe.slug),
            _version(one, recipe, site, first=one is site.versions[recipe.slug][-1]),
        )
        for one, recipe in found[:MOST]
    )


def _version(one: Version, recipe: Published, site: SiteInput, *, first: bool) -> VersionView:
    rows = [
        MovedRow(
            row.name,
            row.before or message("history.none"),
            row.after or message("history.none"),
            row.by or "",
        )
        for row in one.moved
    ]
    main = [
        row for row in rows if row.name in _FIRST or row.name.startswith(("oil ", "addition ", "liquid "))
    ]
    lots = tuple(
        record.batch.lot
        for record in recipe.batches
        if record.batch.formula is not None and matches(record.batch.formula, one.fingerprint)
    )
    return VersionView(
        day=Day(one.on),
        about=one.about,
        commit=one.commit,
        fingerprint=one.fingerprint,
        lots=lots,
        moved=tuple(main),
        rest=tuple(row for row in rows if row not in main),
        first=first,
    )


def _chart(found: Sequence[Version], site: SiteInput) -> str:
    along = [
        (one.on, one.lye, one.superfat)
        for one in reversed(found)
        if one.lye is not None and one.superfat is not None
    ]
    if len(along) < 2:
        return ""
    return course(along, speaker(site.book.settings.language, site.book.settings.units)).svg
