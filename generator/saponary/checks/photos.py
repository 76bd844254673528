"""photos: a photo that is not in the book. One that cannot be opened is found when the site is built."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.shots import shots
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    for shot, place in shots(computed):
        if shot.file not in computed.photos:
            hint = computed.instead[shot.file]
            yield Finding(RULE.name, "error", place("file"), f"there is no photo photos/{shot.file}", hint)


RULE = Rule(
    "photos",
    "sense",
    "Photos lie in photos/, and each that a recipe or a batch names can be opened.",
    recipe=check,
)
