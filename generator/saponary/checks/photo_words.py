"""photo-words: a photo without words for those who cannot see it."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.shots import shots
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    for shot, place in shots(computed):
        if not shot.alt and not shot.note:
            hint = "add alt: what is to be seen, or note:"
            yield Finding(RULE.name, "warning", place(), "this photo has no description", hint, shot.file)


RULE = Rule(
    "photo-words",
    "sense",
    "Each photo has an alternative text (alt) or a note, for those who cannot see it.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="photo",
)
