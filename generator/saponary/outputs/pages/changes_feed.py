"""What changed in the book's figures, as a feed (Atom) beside the page of it: for editions that show the history."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import Value, clauses, commas, message
from saponary.outputs import rests_on
from saponary.outputs.atom import Entry, Feed, atom
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.pages.history import book_changes, told_of
from saponary.views import links
from saponary.views.history import ChangeView, VersionView

MOST = 50
"""Entries, the latest first."""


def _render(context: PageContext) -> Iterator[SiteFile]:
    told = told_of(context)
    if told:
        histories = (rests_on.history(recipe.slug) for recipe in told)
        uses = (rests_on.SETTINGS, rests_on.EDITION, *rests_on.recipes(told), *histories)
        yield SiteFile(links.CHANGES_FEED, lambda: _feed(context), uses)


def _feed(context: PageContext) -> bytes:
    site = context.site
    up = context.top or links.root(links.CHANGES_FEED)
    found = book_changes(context, told_of(context), up, MOST)
    feed = Feed(
        id="changes",
        title=message("history.feed", book=site.book.settings.title),
        own=context.top + links.CHANGES_FEED if context.top else "",
        page=up + links.CHANGES,
        entries=[_entry(one) for one in found],
    )
    return atom(feed, site.book.settings)


def _entry(one: ChangeView) -> Entry:
    version = one.version
    return Entry(f"changes/{one.slug}/{version.commit}", version.day.on, one.title, _about(version), one.href)


def _about(version: VersionView) -> Value:
    """What was said of the change, and the figures that it moved."""
    rows = (
        message("history.moved", name=row.name, before=row.before, after=row.after) for row in version.moved
    )
    told: Value = message("history.first") if version.first else commas(*rows)
    if told == "":
        told = message("history.no-figure")
    return clauses(version.about, told)


KIND = PageKind("changes-feed", _render, needs="history")
