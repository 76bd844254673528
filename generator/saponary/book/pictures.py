"""The photos that notes and pages show: `![a bar](../photos/bar.jpg)`."""

from __future__ import annotations

from collections.abc import Iterator
from posixpath import dirname
from typing import NamedTuple

from saponary.book.quotes import uncommented
from saponary.reading.markdown import pictured
from saponary.reading.textfile import TextFile


class NotePhoto(NamedTuple):
    """A photo by its path inside `photos/`, where the file names it, and its words for those who cannot see it."""

    name: str
    at: int
    alt: str


def in_notes(file: TextFile) -> Iterator[NotePhoto]:
    """The photos of the text below a file's front matter, without those in comments."""
    if "![" not in file.body:
        return
    shown = uncommented(file.body)
    for name, address in pictured(shown.text, dirname(file.file)):
        yield NotePhoto(name, file.body_start + shown.origin(address.start), address.words.strip())
