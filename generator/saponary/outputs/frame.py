"""What stands round every page: the book's name, the ways through it, the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from markupsafe import Markup

from saponary.label.cautions import LYE, Caution, emergency
from saponary.messages.message import Value
from saponary.views import links
from saponary.views.asking import asking
from saponary.views.prose import Prose
from saponary.views.prose_links import Links
from saponary.views.site import SiteInput

BESIDE = frozenset({links.ICON, links.FEED, links.READY, links.FIGURES})
"""Files that every page names in its head, where the site has them."""


class NavEntry(NamedTuple):
    """A page that the navigation may lead to: what it is called, and its path in the site."""

    name: Value
    path: str


class NavLink(NamedTuple):
    """A link of the navigation, led from the page it stands on."""

    name: Value
    href: str
    here: Literal["", "page", "true"]
    """As `aria-current` has it: the page itself, or one that lies below it."""


class FrameLogo(NamedTuple):
    """The book's logo by its address, and its width and height at one line of text."""

    src: str
    width: int
    height: int


class Frame(NamedTuple):
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
    address: str
    """Of this page on the net; '' for a book that does not say where it lies."""
    logo: FrameLogo | None
    footer: Markup | None
    """A sentence of the maker's own."""
    icon: str
    feed: str
    ready: str
    figures: str
    """Files beside the pages: the icon, the feed, the calendar and the figures; '' where the site has none."""
    hidden: bool
    """Whether no search engine is to list the page."""
    ask: str
    """Where a customer asks or buys; '' where there is no such place."""
    contact: str
    ask_note: Markup | None


def frame(
    site: SiteInput,
    path: str,
    style: str,
    nav: Sequence[NavEntry],
    beside: frozenset[str] = frozenset(),
    root: str | None = None,
) -> Frame:
    """`beside` are the files of the site that every page names; `root` leads to the top of the site, where
    the page's own path does not tell."""
    settings, up = site.book.settings, links.root(path) if root is None else root
    there = {name: up + name if name in beside else "" for name in BESIDE}
    asked = asking(settings.shop)
    return Frame(
        language=settings.language,
        book=settings.title,
        maker=settings.maker,
        place=settings.place,
        root=up,
        style=up + style,
        nav=tuple(_nav(nav, up, path)),
        cautions=LYE,
        emergency=emergency(settings.emergency),
        engine=site.engine,
        tables=site.tables,
        address=_address(site, path) if root is None else "",
        logo=_logo(site, up),
        footer=_footer(site, up),
        icon=there[links.ICON],
        feed=there[links.FEED],
        ready=there[links.READY],
        figures=there[links.FIGURES],
        hidden=not site.edition.is_public and site.edition.reader != "customer",
        ask=asked.ask,
        contact=asked.contact,
        ask_note=asked.note,
    )


def _nav(nav: Sequence[NavEntry], up: str, path: str) -> Iterator[NavLink]:
    """Recipes lie below the list of recipes, or below the first page where that is the list."""
    listed = any(entry.path == links.RECIPES for entry in nav)
    for entry in nav:
        folder = entry.path.removesuffix("index.html")
        if not folder and not listed:
            folder = links.RECIPES.removesuffix("index.html")
        below = folder != "" and path.startswith(folder)
        yield NavLink(entry.name, up + entry.path, "page" if entry.path == path else "true" if below else "")


LINE = 36
"""Pixels that a logo is high."""


def _logo(site: SiteInput, up: str) -> FrameLogo | None:
    logo = site.book.logo
    if logo is None:
        return None
    return FrameLogo(up + links.LOGO, max(1, round(LINE * logo.width / logo.height)), LINE)


def _footer(site: SiteInput, up: str) -> Markup | None:
    text = site.book.settings.look.footer
    return Prose({}, Links(up=up, folder="", pages=site.pages)).inline(text) if text else None


def top_of(site: SiteInput) -> str:
    """The address of the top of an edition, ending in a slash; '' for a book that does not say it."""
    base = site.book.settings.base_url
    if base is None:
        return ""
    return f"{base.rstrip('/')}/" + ("" if site.edition.is_public else f"{site.edition.name}/")


def _address(site: SiteInput, path: str) -> str:
    top = top_of(site)
    return top + path.removesuffix("index.html") if top else ""
