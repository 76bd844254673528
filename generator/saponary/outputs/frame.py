"""What stands round every page: the book's name, the ways through it, the cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from saponary.label.cautions import LYE, Caution, emergency
from saponary.messages.message import Message, Value
from saponary.views import links
from saponary.views.asking import asking
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class NavEntry:
    """A page that the navigation may lead to: what it is called, and its path in the site."""

    name: Message
    path: str


@dataclass(frozen=True)
class NavLink:
    """A link of the navigation, led from the page it stands on."""

    name: Message
    href: str
    here: bool


@dataclass(frozen=True)
class Frame:
    language: str
    book: str
    maker: str
    place: str
    root: str
    style: str
    nav: tuple[NavLink, ...]
    cautions: tuple[Caution, ...]
    emergency: Value
    engine: str
    tables: str
    ask: str
    """Where a customer asks or buys; '' where there is no such place."""
    contact: str
    ask_note: Markup | None


def frame(site: SiteInput, path: str, style: str, nav: Sequence[NavEntry]) -> Frame:
    settings, up = site.book.settings, links.root(path)
    asked = asking(settings.shop)
    return Frame(
        language=settings.language,
        book=settings.title,
        maker=settings.maker,
        place=settings.place,
        root=up,
        style=up + style,
        nav=tuple(NavLink(entry.name, up + entry.path, entry.path == path) for entry in nav),
        cautions=LYE,
        emergency=emergency(settings.emergency),
        engine=site.engine,
        tables=site.tables,
        ask=asked.ask,
        contact=asked.contact,
        ask_note=asked.note,
    )
