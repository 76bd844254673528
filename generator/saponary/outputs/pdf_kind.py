"""What a kind of PDF is, and the context it is composed at."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field

from jinja2 import Environment

from saponary.quantity.dataclass import dataclass
from saponary.views.drawings import Drawings
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class Attachment:
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
class PdfContext:
    """An edition's input, the files of its site (drawings, photos), and the templates."""

    site: SiteInput
    files: Mapping[str, bytes]
    environment: Environment
    drawings: Drawings = field(compare=False)


@dataclass(frozen=True)
class PdfKind:
    """A kind of PDF: its name, and the sheets it brings. `needs` names what an edition must show."""

    name: str
    render: Callable[[PdfContext], Iterator[PdfSheet]]
    needs: str | None = None
