"""What stands round every page: the book's name, the ways through it, the cautions."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.views import links
from saponary.views.cautions import LYE, NO_ADVICE, Caution, emergency
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class Way:
    """A link of the navigation."""

    name: str
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
    ways: tuple[Way, ...]
    cautions: tuple[Caution, ...]
    emergency: str
    no_advice: str
    engine: str
    tables: str


WAYS = (
    ("Recipes", links.GALLERY, ""),
    ("Ingredients", links.INGREDIENTS, "work"),
    ("Colours", links.COLOURS, "work"),
    ("Lots", links.LOTS, "batches"),
    ("Cure shelf", links.CURE_SHELF, "batches"),
    ("Words", links.WORDS, ""),
    ("Set aside", links.SET_ASIDE, "waivers"),
)
"""Names in the navigation, where they lead, and what an edition must show to have them."""


def frame(site: SiteInput, path: str, style: str) -> Frame:
    settings, up = site.book.settings, links.root(path)
    return Frame(
        language=settings.language,
        book=settings.title,
        maker=settings.maker,
        place=settings.place,
        root=up,
        style=up + style,
        ways=tuple(
            Way(name, up + to, path == to) for name, to, needs in WAYS if not needs or site.shows(needs)
        ),
        cautions=LYE,
        emergency=emergency(settings.emergency),
        no_advice=NO_ADVICE,
        engine=site.engine,
        tables=site.tables,
    )
