"""What of an edition is set on paper beside its pages: the addresses of its PDFs, led from a page."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.published import Published
from saponary.messages.message import Message, message
from saponary.views.paper.frame import SIZES
from saponary.views.site import SiteInput


class Printed(NamedTuple):
    """One PDF: the paper it is for, and where it lies."""

    paper: Message
    href: str


KEYS_BY_ID = {"paper.": tuple(size.name for size in SIZES)}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def of_book(site: SiteInput, up: str = "") -> tuple[Printed, ...]:
    """The whole book."""
    return tuple(_made("book", site, up))


def of_recipe(slug: str, site: SiteInput, up: str) -> tuple[Printed, ...]:
    """A recipe's sheet."""
    return tuple(_made(f"recipes/{slug}/{slug}", site, up))


def of_class(slug: str, copy: str, site: SiteInput, up: str) -> tuple[Printed, ...]:
    """A class's handout, the student's copy or the teacher's."""
    return tuple(_made(f"classes/{slug}-{copy}", site, up))


def of_labels(slug: str, site: SiteInput, up: str) -> tuple[tuple[str, str], ...]:
    """A recipe's labels: the name of each grid, and where its sheet lies."""
    found = ((grid, f"labels/{slug}-{grid}.pdf") for grid in site.book.settings.label_sheets)
    return tuple((grid, up + path) for grid, path in found if path in site.pdfs)


def of_lot(lot: str, recipe: Published, site: SiteInput) -> str:
    """The command that makes labels of a lot, where its maker may read it and they may be made; `lot` is '' for
    any that there is.
    """
    label = recipe.model.label
    if (
        not site.shows("private")
        or not site.book.settings.label_sheets
        or label is None
        or not label.net_weight
    ):
        return ""
    one = recipe.standing.get(lot)
    if lot and (one is None or one.held or one.astray):
        return ""
    return f"saponary labels FOLDER --lot {shlex.quote(lot) if lot else 'LOT'}"


def _made(stem: str, site: SiteInput, up: str) -> Iterator[Printed]:
    for size in SIZES:
        path = f"{stem}-{size.name}.pdf"
        if path in site.pdfs:
            yield Printed(message(f"paper.{size.name}"), up + path)
