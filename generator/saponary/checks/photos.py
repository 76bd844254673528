"""photos: a photo that is not in the book, or has no words for those who cannot see it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.tree import Path
from saponary.schema.batch import PhotoRef


def check(computed: Computed) -> Iterator[Finding]:
    if computed.model.photo is not None:
        yield from _look(computed, computed.model.photo, lambda path: computed.place(("photo", *path)))
    for record in computed.batches:
        for index, shot in enumerate(record.batch.photos):
            start: Path = ("photos", index)
            yield from _look(computed, shot, lambda path, r=record, s=start: r.place((*s, *path)))  # type: ignore[misc]


def _look(computed: Computed, shot: PhotoRef, place: Callable[[Path], Place]) -> Iterator[Finding]:
    if shot.file not in computed.photos:
        hint = suggest(shot.file, computed.photos, "photos")
        yield Finding(RULE.name, "error", place(("file",)), f"there is no photo photos/{shot.file}", hint)
    if not shot.alt and not shot.note:
        hint = "add alt: what is to be seen, or note:"
        yield Finding(RULE.name, "warning", place(()), "this photo has no words", hint)


RULE = Rule(
    "photos",
    "sense",
    "Photos lie in photos/. Each has an alternative text (alt) or a note, for those who cannot see it.",
    check,
)
