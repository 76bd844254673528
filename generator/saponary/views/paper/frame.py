"""The paper a sheet is set on: its size, its running heads, and the cautions that no sheet lacks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from saponary.label.cautions import LYE, Caution, emergency
from saponary.messages.message import Value
from saponary.views.site import SiteInput


class Size(NamedTuple):
    """A size of paper: its word in a file's name, and its name in a style sheet."""

    name: str
    css: str


SIZES = (Size("a4", "A4"), Size("letter", "letter"))


@dataclass(frozen=True)
class Paper:
    """What `press/base.html` asks of every sheet, handed to the template as `paper`."""

    size: str
    language: str
    title: Value
    author: str
    subject: Value
    book: str
    head: Value
    maker: str
    place: str
    engine: str
    tables: str
    cautions: tuple[Caution, ...]
    emergency: Value


def paper(site: SiteInput, size: Size, title: Value, *, subject: Value = "", head: Value = "") -> Paper:
    """`title` and `subject` are those of the document; `head` runs on every page."""
    settings = site.book.settings
    return Paper(
        size=size.css,
        language=settings.language,
        title=title,
        author=settings.maker or settings.title,
        subject=subject or settings.title,
        book=settings.title,
        head=head,
        maker=settings.maker,
        place=settings.place,
        engine=site.engine,
        tables=site.tables,
        cautions=LYE,
        emergency=emergency(settings.emergency),
    )
