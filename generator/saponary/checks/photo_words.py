"""photo-words: a photo without words for those who cannot see it."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.pictures import in_notes
from saponary.book.shots import shots
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    for shot, place, _ in shots(computed):
        if not shot.alt and not shot.note:
            hint = "add alt: what is to be seen, or note:"
            yield Finding(RULE.name, "warning", place(), "this photo has no description", hint, shot.file)
    for one in in_notes(computed.file):
        if not one.alt:
            hint = f"say between the brackets what is to be seen: ![a white bar](../photos/{one.name})"
            place_of = computed.file.place_at(one.at)
            yield Finding(RULE.name, "warning", place_of, "this photo has no description", hint, one.name)


RULE = Rule(
    "photo-words",
    "sense",
    "Each photo needs a description (alt) or a note, for people who cannot see it; one in the notes has"
    " words between its brackets.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="photo",
)
