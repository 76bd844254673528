"""A book that is held in memory, so that an example is read as a maker's own files are."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from saponary.book.library import read_book
from saponary.build.proof import Proof, prove_book
from saponary.manual.bases import PHOTOS, book_of
from saponary.manual.troubles import Trouble
from saponary.reading.files import Unread
from saponary.reading.findings import Finding

NOWHERE = Path("/nowhere")


class Held(NamedTuple):
    """Texts by their path in the book, and the names of its photos."""

    texts: Mapping[str, str]
    photos: frozenset[str] = frozenset()

    @property
    def root(self) -> Path:
        return NOWHERE

    def has(self, name: str) -> bool:
        return name in self.texts

    def read(self, name: str) -> bytes | Unread:
        text = self.texts.get(name)
        return Unread("there is no such file", "write it") if text is None else text.encode()

    def names(self, folder: str) -> list[str] | Unread:
        home = f"{folder}/"
        return sorted(
            {name.removeprefix(home).partition("/")[0] for name in self.texts if name.startswith(home)}
        )

    def below(self, folder: str) -> frozenset[str]:
        return self.photos if folder == "photos" else frozenset()


def proved(texts: Mapping[str, str], photos: frozenset[str] = frozenset()) -> Proof:
    """The proof of a book held in memory."""
    return prove_book(read_book(Held(texts, photos)))


def found(trouble: Trouble, text: str) -> tuple[Finding, ...]:
    """All that is found in a book that holds these lines of a rule's sample."""
    return proved(book_of(trouble.file, text, trouble.beside), PHOTOS).findings
