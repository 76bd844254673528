"""photo-words: a photo without words for those who cannot see it."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.pictures import in_notes
from saponary.book.shots import shots
from saponary.checks.listed import IN_TEXTS, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding
from saponary.reading.textfile import TextFile


def check(computed: Computed) -> Iterator[Finding]:
    for shot, place, _ in shots(computed):
        if not shot.alt and not shot.note:
            hint = "add alt: what is to be seen, or note:"
            yield Finding(RULE.name, "warning", place(), "this photo has no description", hint, shot.file)
    yield from _in_text(computed.file)


def check_pages(context: ProofContext) -> Iterator[Finding]:
    for page in context.book.pages:
        yield from _in_text(page)


def _in_text(file: TextFile) -> Iterator[Finding]:
    for one in in_notes(file):
        if not one.alt:
            hint = f"say between the brackets what is to be seen: ![a white bar](../photos/{one.name})"
            place = file.place_at(one.at)
            yield Finding(RULE.name, "warning", place, "this photo has no description", hint, one.name)


RULE = Rule(
    "photo-words",
    "sense",
    "Each photo needs a description (alt) or a note, for people who cannot see it; one in the notes has"
    " words between its brackets.",
    recipe=check,
    book=check_pages,
    kinds=WARNING,
    waivable=IN_TEXTS,
    each="photo",
)
