"""Rules waived with a written reason, in any file that may do so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from saponary.reading.findings import Place
from saponary.reading.tree import Tree
from saponary.schema.fields import Part, ShortText
from saponary.schema.seen import Public


class Waiver(Part):
    """A rule waived in this file, the one thing it is about where there may be several, and why."""

    rule: Public[ShortText]
    """The rule to set aside, by the name in brackets at the end of its finding."""
    about: Public[Annotated[str, Field(min_length=1, max_length=300)] | None] = None
    """The one thing it is wrong about, where the rule may find several. The finding tells the word."""
    because: Public[Annotated[str, Field(min_length=12, max_length=1000)]]
    """Your reason, in at least 12 characters. The maker's edition shows it."""

    @property
    def name(self) -> str:
        return _named(self.rule, self.about or "")


Waivers = Annotated[list[Waiver], Field(max_length=100)]


@dataclass(frozen=True)
class Waived:
    """A rule waived: which, about what ('' for the whole file), why, and where that stands."""

    rule: str
    about: str
    because: str
    place: Place

    @property
    def name(self) -> str:
        return _named(self.rule, self.about)


def _named(rule: str, about: str) -> str:
    """A waiver as a page names it."""
    return f"{rule}, {about}" if about else rule


def placed(waivers: Sequence[Waiver], tree: Tree, file: str) -> tuple[Waived, ...]:
    """The waivers of a file, each at the rule it names."""
    found: list[Waived] = []
    for index, waiver in enumerate(waivers):
        found.append(
            Waived(
                waiver.rule, waiver.about or "", waiver.because, tree.place(file, ("waive", index, "rule"))
            )
        )
    return tuple(found)
