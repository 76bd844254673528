"""Every photo that a recipe, its batches or its notes name, with the place of each of its values."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from saponary.book.computed import Computed
from saponary.book.pictures import in_notes
from saponary.book.records import BatchRecord
from saponary.reading.findings import Place
from saponary.schema.batch import PhotoRef


class Where(Protocol):
    """The place of a value of one photo, or of the whole of it."""

    def __call__(self, *path: str) -> Place: ...


def shots(computed: Computed) -> Iterator[tuple[PhotoRef, Where, str | None]]:
    """The recipe's own photo first, then those of its batches in their order, each with the formula that its lot was
    poured to where that is recorded."""
    if computed.model.photo is not None:
        yield computed.model.photo, lambda *path: computed.place(("photo", *path)), None
    for record in computed.batches:
        for index, shot in enumerate(record.batch.photos):
            yield shot, _inside(record, index), record.batch.formula


def named_photos(computed: Computed) -> Iterator[tuple[str, Place]]:
    """Every photo by its path inside `photos/`, with the place where it is named; those of the notes last."""
    yield from ((shot.file, place("file")) for shot, place, _ in shots(computed))
    yield from ((one.name, computed.file.place_at(one.at)) for one in in_notes(computed.file))


def _inside(record: BatchRecord, index: int) -> Where:
    return lambda *path: record.place(("photos", index, *path))
