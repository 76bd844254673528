"""The history of formulas: of one recipe its versions, of the book what changed, the latest first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from saponary.book.changes import Version
from saponary.book.figure import Figure
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


class MovedRow(NamedTuple):
    """One figure before and after, as shown; `name` as a recipe's text would place it."""

    name: str
    before: Value
    after: Value
    by: Value


class VersionView(NamedTuple):
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


class HistoryView(NamedTuple):
    title: str
    home: str
    feed: str
    """The address of the feed of the whole book's changes."""
    versions: tuple[VersionView, ...]
    chart: str
    """How lye and superfat went, as an inline SVG; '' where there are fewer than two versions."""


class ChangeView(NamedTuple):
    """A change of one recipe, in the book's list."""

    slug: str
    at: int
    """Its place among those of its recipe, the latest first."""
    title: str
    href: str
    version: VersionView


class CommitView(NamedTuple):
    """What one commit did to the book's recipes: those that came with it, and those that it changed."""

    day: Day
    about: str
    first: tuple[ChangeView, ...]
    changed: tuple[ChangeView, ...]


def history(recipe: Published, site: SiteInput, up: str) -> HistoryView:
    """What is known of a recipe's versions."""
    found = site.versions.get(recipe.slug, ())
    title = Prose(recipe.catalogue).title(recipe.model.title)
    return HistoryView(
        title=title,
        home=up + links.recipe_page(recipe.slug),
        feed=up + links.CHANGES_FEED,
        versions=tuple(_version(one, recipe) for one in found),
        chart=_chart(found, site),
    )


def latest(slugs: Iterable[str], site: SiteInput, most: int = MOST) -> tuple[tuple[str, int], ...]:
    """The latest versions of all these recipes, by recipe and place among its own; of one commit, by the recipes."""
    found = [(slug, at, one) for slug in slugs for at, one in enumerate(site.versions.get(slug, ()))]
    found.sort(key=lambda one: (-one[2].at, one[0]))
    return tuple((slug, at) for slug, at, _ in found[:most])


def changes(recipe: Published, site: SiteInput, up: str) -> Iterator[ChangeView]:
    """Every version of one recipe."""
    found = site.versions.get(recipe.slug, ())
    title, href = Prose(recipe.catalogue).title(recipe.model.title), up + links.history(recipe.slug)
    for at, one in enumerate(found):
        yield ChangeView(recipe.slug, at, title, href, _version(one, recipe))


def in_their_order(rows: Iterable[ChangeView], wanted: Iterable[tuple[str, int]]) -> tuple[ChangeView, ...]:
    """Those that are wanted, in that order."""
    known = {(row.slug, row.at): row for row in rows}
    return tuple(known[one] for one in wanted)


def together(changes: Iterable[ChangeView]) -> tuple[CommitView, ...]:
    """What was changed in one go stands together."""
    by_commit: dict[str, list[ChangeView]] = {}
    for one in changes:
        by_commit.setdefault(one.version.commit, []).append(one)
    return tuple(
        CommitView(
            day=of[0].version.day,
            about=of[0].version.about,
            first=tuple(one for one in of if one.version.first),
            changed=tuple(one for one in of if not one.version.first),
        )
        for of in by_commit.values()
    )


def _version(one: Version, recipe: Published) -> VersionView:
    rows = [MovedRow(row.name, _figure(row.was), _figure(row.now), _by(row.by)) for row in one.moved]
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
        first=one.first,
    )


def _figure(figure: Figure | None) -> Value:
    if figure is None:
        return message("history.none")
    return figure.number() if figure.known else message("history.not-known")


def _by(figure: Figure | None) -> Value:
    """A difference, with its sign."""
    if figure is None:
        return ""
    number = figure.number()
    if figure.kind == "share":
        number = replace(number, unit="")
    off: Value = message("history.points", by=number) if figure.kind == "share" else number
    return message("history.more", by=off) if figure.value > 0 else off


def _chart(found: Sequence[Version], site: SiteInput) -> str:
    along = [
        (one.on, one.lye, one.superfat)
        for one in reversed(found)
        if one.lye is not None and one.superfat is not None
    ]
    if len(along) < 2:
        return ""
    return course(along, speaker(site.book.settings.language, site.book.settings.units)).svg
