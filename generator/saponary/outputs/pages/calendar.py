"""The days on which the cure of lots is over, as a calendar file (iCalendar, RFC 5545)."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from functools import partial
from typing import NamedTuple

from saponary.book.published import Published
from saponary.messages.message import day as on_day
from saponary.messages.message import message
from saponary.messages.speaker import Speaker, speaker
from saponary.outputs import rests_on
from saponary.outputs.frame import top_of
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.rows import RowsOf
from saponary.views import links
from saponary.views.readiness import Lot, lots_of, newest_first
from saponary.views.site import SiteInput

_LINE = 75
"""Octets of a content line, its end left out (RFC 5545, 3.1)."""

_NAMES = uuid.UUID("b3d43f0e-5a49-5f0c-9a57-6c1f2f0a8e11")
"""The space in which the ids of events are named."""


class Event(NamedTuple):
    """The day on which a lot's cure is over, as lines of a calendar without the day of the calendar itself."""

    slug: str
    lot: str
    poured: date
    over: date
    lines: tuple[str, ...]


def events(recipe: Published, site: SiteInput) -> Iterator[Event]:
    """Those of one recipe's lots that are not held back."""
    say = speaker(site.book.settings.language, site.book.settings.units)
    for lot in lots_of(recipe):
        if not lot.standing.held:
            lines = tuple(_event(lot, site, say))
            yield Event(recipe.slug, lot.batch.lot, lot.batch.poured, lot.readiness.on, lines)


def due(found: Iterable[Event], on: date) -> list[Event]:
    """Those after a day; if there is none, the one that was last.

    So whether there is any does not change with the day.
    """
    free = sorted(newest_first(found), key=lambda one: one.over)
    return [one for one in free if one.over > on] or free[-1:]


def calendar(site: SiteInput, found: Sequence[Event]) -> bytes:
    """One event of a whole day for each lot. A calendar may not be without any.

    `DTSTAMP` is the day the site speaks of, so that the same book on the same day gives the same bytes.
    """
    say = speaker(site.book.settings.language, site.book.settings.units)
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Saponary//Ready days//EN",
        "CALSCALE:GREGORIAN",
        f"NAME:{text(say('calendar.name', book=site.book.settings.title))}",
    ]
    stamp = f"DTSTAMP:{_digits(site.on.isoformat())}T000000Z"
    for one in found:
        lines += ["BEGIN:VEVENT", stamp, *one.lines]
    return b"".join(folded(line) for line in (*lines, "END:VCALENDAR"))


def _event(lot: Lot, site: SiteInput, say: Speaker) -> list[str]:
    batch, top = lot.batch, top_of(site) if site.edition.published else ""
    found = lot.readiness
    poured = on_day(batch.poured)
    about = message("calendar.about", poured=poured, state=found.word, day=found.day, how=found.how)
    summary = message("calendar.summary", state=found.head, recipe=lot.title, lot=batch.lot)
    lines = [
        f"UID:{uuid.uuid5(_NAMES, f'{lot.recipe.slug} {batch.lot}')}",
        f"DTSTART;VALUE=DATE:{_digits(found.on.isoformat())}",
        f"SUMMARY:{text(say(summary))}",
        f"DESCRIPTION:{text(say(about))}",
    ]
    if top:
        lines.append(f"URL:{top}{lot.path}")
    return [*lines, "TRANSP:TRANSPARENT", "END:VEVENT"]


def _digits(day: str) -> str:
    return day.replace("-", "")


def text(words: str) -> str:
    """A value of type TEXT: signs with a meaning escaped, lines marked, no other control characters."""
    escaped = words.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    lined = "\\n".join(escaped.splitlines())
    return "".join(sign for sign in lined if sign == "\t" or (sign >= " " and not "\x7f" <= sign <= "\x9f"))


def folded(line: str) -> bytes:
    """A content line with its end, cut to 75 octets at whole characters; what follows starts with a space."""
    out, room = [b""], _LINE
    for sign in line:
        octets = sign.encode("utf-8")
        if len(out[-1]) + len(octets) > room:
            out.append(b"")
            room = _LINE - 1
        out[-1] += octets
    return b"\r\n ".join(out) + b"\r\n"


def _render(context: PageContext) -> Iterator[SiteFile]:
    if any(recipe.glance.free for recipe in context.recipes):
        rows = context.rows.all(
            "calendar", Event, context.recipes, rests_on.ROW, lambda one: events(one, context.site)
        )
        uses = (rests_on.SETTINGS, rests_on.EDITION, rests_on.DAY, rows.name)
        yield SiteFile(links.READY, partial(_calendar, context, rows), uses)


def _calendar(context: PageContext, rows: RowsOf[Event]) -> bytes:
    return calendar(context.site, due(rows.found(), context.site.on))


KIND = PageKind("calendar", _render, needs="batches")
