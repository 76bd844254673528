"""A book in the making: which parts are to be set next, until no number of a page changes any more.

Parts that print numbers are set without them first, so that it is known how many pages they fill.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from saponary.outputs.grafted.fragment import Fragment
from saponary.outputs.grafted.plan import UNKNOWN, Extent, Plan, extent, plan
from saponary.outputs.grafted.prepared import asked_for
from saponary.outputs.pdf_kind import Attachment, Part, PdfBook, SetPdf

_FREE = 3
"""How often a part is set before it is given room for the most pages that it has filled: a number that takes
another line can move what it is the number of, to and fro."""


@dataclass(frozen=True)
class PartJob:
    """A part to be set: its name and HTML, whether it opens on a left page, and the numbers that it prints."""

    name: str
    html: str
    left: bool
    numbers: Mapping[str, int] | None


class BindJob(NamedTuple):
    """A book to be bound: its fragments as bytes, each with its first page and its chapter."""

    path: str
    html: str
    """Of the first part, which tells of the whole."""
    parts: tuple[tuple[bytes, int, str], ...]
    attachments: tuple[Attachment, ...]


class Making:
    """Asked in turns which jobs it `wants`, and given what came of them."""

    def __init__(self, book: PdfBook) -> None:
        self.book = book
        self._names = [asked_for(part.html) if part.numbers else frozenset[str]() for part in book.parts]
        self._set: dict[int, PartJob] = {}
        self._times: dict[int, int] = {}
        self._extents: list[Extent] = [UNKNOWN for _ in book.parts]
        self._made: dict[int, SetPdf] = {}

    def wants(self) -> dict[int, PartJob]:
        """Jobs by the place of their part; none where the book can be bound."""
        planned = plan(self.book.parts, self._extents)
        jobs = {at: self._job(at, part, planned) for at, part in enumerate(self.book.parts)}
        return {at: job for at, job in jobs.items() if self._set.get(at) != job}

    def take(self, at: int, job: PartJob, made: SetPdf, fragment: Fragment) -> None:
        """What came of a job."""
        found = extent(fragment)
        times = self._times[at] = self._times.get(at, 0) + 1
        if times > _FREE:
            found = replace(found, pages=max(found.pages, self._extents[at].pages))
        self._extents[at], self._made[at], self._set[at] = found, made, job

    def bind(self) -> BindJob:
        """The job of putting all together; every part has been set."""
        parts, first = self.book.parts, plan(self.book.parts, self._extents).first
        bound = tuple((self._made[at].data, first[at], part.within) for at, part in enumerate(parts))
        return BindJob(self.book.path, parts[0].html, bound, self.book.attachments)

    def shown(self) -> tuple[str, ...]:
        """The files of the site that were asked for in setting the parts."""
        return tuple(dict.fromkeys(name for made in self._made.values() for name in made.shown))

    def _job(self, at: int, part: Part, planned: Plan) -> PartJob:
        left = planned.first[at] % 2 == 0 if len(self._set) == len(self.book.parts) else part.opens == "left"
        return PartJob(part.name, part.html, left, self._numbers(at, part, planned))

    def _numbers(self, at: int, part: Part, planned: Plan) -> Mapping[str, int] | None:
        if not part.numbers:
            return None
        if len(self._set) < len(self.book.parts):
            return {}
        return {name: planned.numbers[name] for name in sorted(self._names[at] & planned.numbers.keys())}
