"""A feed's bytes (Atom, RFC 4287)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from html import escape
from typing import NamedTuple
from urllib.parse import urlsplit

from saponary.messages.message import Value
from saponary.messages.speaker import speaker
from saponary.schema.settings import Settings

_NEVER = date(2000, 1, 1)
"""The day of a feed that has nothing in it."""


class Entry(NamedTuple):
    """One entry: what tells it from all others, its day, title and text, and the address of the page it is about."""

    id: str
    on: date
    title: Value
    about: Value
    href: str


class Feed(NamedTuple):
    """A feed: its id, its title, its own address ('' where that is not known), the page it tells of, its entries."""

    id: str
    title: Value
    own: str
    page: str
    entries: Sequence[Entry]


def atom(feed: Feed, settings: Settings) -> bytes:
    """Ids are tags (RFC 4151) of the site's own name, and stay if it moves within it."""
    say = speaker(settings.language, settings.units)
    tag = f"tag:{urlsplit(settings.base_url or '').hostname or 'book'},2000:"
    updated = max((entry.on for entry in feed.entries), default=_NEVER)

    def lines() -> Iterator[str]:
        yield '<?xml version="1.0" encoding="UTF-8"?>'
        yield f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="{escape(settings.language)}">'
        yield f" <id>{tag}{escape(feed.id)}</id>"
        yield f" <title>{escape(say.say(feed.title))}</title>"
        yield f" <author><name>{escape(settings.maker or settings.title)}</name></author>"
        if feed.own:
            yield f' <link rel="self" type="application/atom+xml" href="{escape(feed.own)}"/>'
        yield f' <link rel="alternate" type="text/html" href="{escape(feed.page)}"/>'
        yield f" <updated>{updated.isoformat()}T00:00:00Z</updated>"
        for entry in feed.entries:
            yield " <entry>"
            yield f"  <id>{tag}{escape(entry.id)}</id>"
            yield f"  <title>{escape(say.say(entry.title))}</title>"
            yield f'  <link rel="alternate" type="text/html" href="{escape(entry.href)}"/>'
            yield f"  <updated>{entry.on.isoformat()}T00:00:00Z</updated>"
            if about := say.say(entry.about):
                yield f"  <summary>{escape(about)}</summary>"
            yield " </entry>"
        yield "</feed>"

    return ("\n".join(lines()) + "\n").encode()
