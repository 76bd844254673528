"""photos: a photo that is not in the book. One that cannot be opened is found when the site is built."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.shots import named_photos
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    for name, place in named_photos(computed):
        if name not in computed.photos:
            yield Finding(
                RULE.name, "error", place, f"there is no photo photos/{name}", computed.instead[name]
            )


RULE = Rule(
    "photos",
    "sense",
    "Photos lie in photos/, and each that a recipe, its notes or a batch names can be opened.",
    recipe=check,
)
