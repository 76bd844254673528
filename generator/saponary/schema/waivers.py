"""Rules set aside with a written reason, in any file that may do so."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.tree import Tree
from saponary.schema.fields import Part, ShortText


class Waiver(Part):
    """A rule set aside for this file, with the reason written down."""

    rule: ShortText
    because: Annotated[str, Field(min_length=12, max_length=1000)]


Waivers = Annotated[list[Waiver], Field(max_length=20)]


@dataclass(frozen=True)
class Waived:
    """A rule set aside: which, why, and where that stands."""

    rule: str
    because: str
    place: Place


def placed(waivers: Sequence[Waiver], tree: Tree, file: str) -> tuple[Waived, ...]:
    """The waivers of a file, each at the rule it names."""
    found = []
    for index, waiver in enumerate(waivers):
        found.append(Waived(waiver.rule, waiver.because, tree.place(file, ("waive", index, "rule"))))
    return tuple(found)


def set_aside(
    found: Iterable[Finding], waived: Sequence[Waived], waivable: Mapping[str, bool]
) -> list[Finding]:
    """The findings less those that are waived, and what is wrong with the waivers.

    `waivable` names every rule, and whether it may be waived in this file.
    """
    kept = list(found)
    for waiver in waived:
        rule = waiver.rule
        if rule not in waivable:
            message, hint = f"there is no rule {rule!r}", suggest(rule, waivable, "rules")
            kept.append(Finding("waiver", "error", waiver.place, message, hint))
        elif not waivable[rule]:
            message = f"the rule {rule!r} cannot be waived here"
            kept.append(Finding("waiver", "error", waiver.place, message, "mend what it finds instead"))
        elif not any(finding.rule == rule for finding in kept):
            message = f"the rule {rule!r} finds nothing here"
            kept.append(Finding("waiver", "warning", waiver.place, message, "take the waiver out"))
        else:
            kept = [finding for finding in kept if finding.rule != rule]
    return kept
