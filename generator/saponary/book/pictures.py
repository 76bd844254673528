"""The photos that a recipe's notes show: `![a bar](../photos/bar.jpg)`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from posixpath import dirname

from saponary.book.quotes import uncommented
from saponary.book.recipe_file import RecipeFile
from saponary.reading.markdown import pictured


@dataclass(frozen=True)
class NotePhoto:
    """A photo by its path inside `photos/`, where the file names it, and its words for those who cannot see it."""

    name: str
    at: int
    alt: str


def in_notes(recipe: RecipeFile) -> Iterator[NotePhoto]:
    """The photos of the notes as they are published, without those in comments."""
    if "![" not in recipe.body:
        return
    shown = uncommented(recipe.body)
    for name, address in pictured(shown.text, dirname(recipe.file)):
        yield NotePhoto(name, recipe.body_start + shown.origin(address.start), address.words.strip())
