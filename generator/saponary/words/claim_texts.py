"""What of a book is read for claims: every text and name that a page, a sheet or an address may show, with its places."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import PurePosixPath
from typing import NamedTuple

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.book.quotes import PLAIN_KEYS, TEXT_KEYS, uncommented
from saponary.book.records import BatchRecord, texts
from saponary.reading.findings import Place
from saponary.reading.tree import Path, Span
from saponary.words.shown import Shown, raw, scalar, unmarked

_KEYS = TEXT_KEYS | PLAIN_KEYS
_NO_LETTER = re.compile(r"[\W\d_]")


class ReadText(NamedTuple):
    """A text as it is shown, where its characters stand, and whether it is a name, as of a file or a lot."""

    shown: Shown
    at: Callable[[int], Place]
    is_name: bool = False


def of_a_recipe(computed: Computed) -> Iterator[ReadText]:
    """The front matter's texts, the notes without their comments, batches in files of their own, then names."""
    file = computed.file
    for span in _spans(computed):
        text = scalar(file.text[span.start : span.end], span.style, span.start)
        yield ReadText(unmarked(text, blocks=False), file.place_at)
    yield ReadText(unmarked(_notes(file.body, file.body_start), blocks=True, code=True), file.place_at)
    for record in computed.batches:
        if record.file != file.file:
            for path, value in (*texts(record), (("lot",), record.batch.lot)):
                yield ReadText(unmarked(raw(value), blocks=False), _inside(record, path, value))
    yield _name(file.slug, Place(file.file))


def of_the_book_itself(book: Book) -> Iterator[ReadText]:
    """What the book says of itself, its classes, its own templates, and the names of its photos."""
    for said in (*book.texts, *book.templates):
        yield ReadText(unmarked(raw(said.text), blocks=True, code=True), said.at)
    for read in book.classes:
        yield _name(read.slug, Place(read.file))
    for photo in sorted(book.photos):
        yield _name(PurePosixPath(photo).with_suffix("").as_posix(), Place(f"photos/{photo}"))


def _name(name: str, place: Place) -> ReadText:
    """A name of a file as words."""

    def at(_: int) -> Place:
        return place

    return ReadText(raw(_NO_LETTER.sub(" ", name)), at, is_name=True)


def _notes(body: str, start: int) -> Shown:
    kept = uncommented(body)
    at: list[int] = []
    ends = (*kept.starts[1:], len(kept.text))
    for begins, ends_at, origin in zip(kept.starts, ends, kept.origins, strict=True):
        at += range(start + origin, start + origin + ends_at - begins)
    return Shown(kept.text, [*at, start + len(body)])


def _spans(computed: Computed) -> list[Span]:
    """Where the published texts of the front matter stand, each once however often it is aliased."""
    found = {
        (span.start, span.end): span
        for path, span in computed.file.tree.values.items()
        if path and path[-1] in _KEYS and "private" not in path
    }
    return [found[key] for key in sorted(found)]


def _inside(record: BatchRecord, path: Path, value: str) -> Callable[[int], Place]:
    """The places of a value's characters, where it stands as it is on one line; else its beginning."""
    place = record.place(path)
    span = record.tree.values.get((*record.path, *path))
    quotes = {"'": 2, '"': 2, "": 0}.get(span.style) if span is not None else None
    if span is None or quotes is None or span.end - span.start != len(value) + quotes or "\n" in value:
        return lambda offset: place
    return lambda offset: Place(place.file, place.line, place.column + quotes // 2 + offset)
