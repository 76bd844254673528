"""What a kind of PDF is, and the context it is composed at."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from jinja2 import Environment

from saponary.views.drawings import Drawings
from saponary.views.site import SiteInput


class Attachment(NamedTuple):
    """A file carried inside a PDF: its name, its bytes, and what it is."""

    name: str
    data: bytes
    about: str


@dataclass(frozen=True)
class PdfSheet:
    """One PDF, composed and not yet set: its path in the site, its HTML, what it carries.

    Addresses in the HTML are relative to the top of the site.
    """

    path: str
    html: str
    attachments: tuple[Attachment, ...] = ()


@dataclass(frozen=True)
class Part:
    """A part of a book that is set by itself: its name in the book, and its HTML with an `html` of its own.

    `opens` is the page that it begins on: `right` or `left`, or `next` for the one after the part before.
    `within` names the chapter that it belongs to, where it does. A part that `numbers` prints the pages that
    its links lead to: each link into the book has them as `data-page` when it is set.
    """

    name: str
    html: str
    opens: Literal["right", "left", "next"] = "left"
    within: str = ""
    numbers: bool = False


@dataclass(frozen=True)
class PdfBook:
    """One PDF that is put together of parts, in their order. The first opens right and tells of the whole."""

    path: str
    parts: tuple[Part, ...]
    attachments: tuple[Attachment, ...] = ()

    @property
    def html(self) -> str:
        """All that is written in it, part after part."""
        return "\n".join(part.html for part in self.parts)


Wanted = PdfSheet | PdfBook


class SetPdf(NamedTuple):
    """What came of setting: a PDF, or a part of one, and the names of the site's files that were asked for."""

    data: bytes
    shown: tuple[str, ...]


@dataclass(frozen=True)
class PdfContext:
    """An edition's input, the files of its site (drawings, photos), and the templates."""

    site: SiteInput
    files: Mapping[str, bytes]
    environment: Environment
    drawings: Drawings = field(compare=False)


class PdfKind(NamedTuple):
    """A kind of PDF: its name, and the sheets it brings. `needs` names what an edition must show."""

    name: str
    render: Callable[[PdfContext], Iterator[Wanted]]
    needs: str | None = None
