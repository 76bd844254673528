"""Pages of the book's own: `pages/NAME.md`, such as one about the maker, or on how to keep soap."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import Field

from saponary.reading import front_matter as front
from saponary.reading.findings import has_errors
from saponary.reading.published_text import PAGE, Said, said
from saponary.reading.textfile import TextFile
from saponary.schema import validate as schema
from saponary.schema.fields import Name, Part
from saponary.schema.seen import Private, Public, Seen
from saponary.schema.waivers import Waived, Waivers, placed

FOLDER = "pages"


class PagePlan(Part):
    """Everything above the second `---` of a page of the book's own."""

    title: Public[Annotated[str, Field(min_length=1, max_length=120)]]
    """The page's heading. Example: title: How to keep soap"""
    menu: Public[Annotated[str, Field(max_length=40)]] = ""
    """What the menu calls it, where the title is too long. Example: menu: Keeping"""
    order: Public[Annotated[int, Field(ge=0, le=1000)]] = 100
    """Its place among your pages in the menu: a lower number stands first. Example: order: 1"""
    editions: Private[Annotated[list[Name], Field(max_length=20)]] = []
    """The editions that have this page. Left out, it is in the maker's alone.
    Example: editions: [public, shop, maker]
    """
    waive: Annotated[Waivers, Seen("waivers")] = []
    """Warnings about this page that you set aside, each with your reason.
    Example:
      title: What can heal a dull week
      waive:
      - {rule: claims, about: heal, because: it is the week that is healed}
    """


@dataclass
class OwnPage(TextFile):
    """One page as read. `plan` is None where its front matter does not hold."""

    plan: PagePlan | None = None

    def texts(self) -> Iterator[Said]:
        """What it says, and where that stands."""
        if self.plan is not None:
            yield from said(self.tree, self.file, PAGE)
            start = self.body_start
            yield Said(self.body, self.place_at(start), lambda offset: self.place_at(start + offset))

    def waived(self) -> tuple[Waived, ...]:
        """What it sets aside, and why."""
        return placed(self.plan.waive, self.tree, self.file) if self.plan is not None else ()


def parse_page(file: str, text: str) -> OwnPage:
    """A page from its text. `file` is its path in the book."""
    read = OwnPage(file, PurePosixPath(file).stem, text)
    if not front.read_into(read, "page", "begin with title: and editions:"):
        return read
    plan, faults = schema.validate(PagePlan, read.tree, file)
    read.findings += faults
    read.plan = None if has_errors(read.findings) else plan
    return read
