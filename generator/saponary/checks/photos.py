"""photos: a photo that is not in the book, or has no words for those who cannot see it."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.findings import Finding, suggest
from saponary.book.recipe import PhotoRef
from saponary.book.source import Path
from saponary.checks.rule import Case, Rule


def check(case: Case) -> Iterator[Finding]:
    shots: list[tuple[Path, PhotoRef]] = []
    if case.model.photo is not None:
        shots.append((("photo",), case.model.photo))
    for b, batch in enumerate(case.model.batches):
        shots += [(("batches", b, "photos", i), shot) for i, shot in enumerate(batch.photos)]
    for path, shot in shots:
        if shot.file not in case.book.photos:
            yield case.finding(
                RULE.name,
                (*path, "file"),
                f"there is no photo photos/{shot.file}",
                suggest(shot.file, case.book.photos, "photos"),
            )
        if not shot.alt and not shot.note:
            yield case.finding(
                RULE.name, path, "this photo has no words", "add alt: what is to be seen, or note:", "warning"
            )


RULE = Rule(
    "photos",
    "sense",
    "Photos lie in photos/. Each has an alternative text (alt) or a note, for those who cannot see it.",
    check,
)
