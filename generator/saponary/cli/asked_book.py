"""The book that a command is about, and the files of it that its words name."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from saponary.assets.store import FOLDER, DiskStore
from saponary.book.proofed import Proofed
from saponary.build.glimpse import Asked
from saponary.build.proof import Proof, prove
from saponary.cli.command import Misuse
from saponary.cli.is_asked import is_asked
from saponary.reading.files import is_book
from saponary.reading.findings import suggest
from saponary.reading.findings_text import as_text


def proofed(folder: Path, asked: Asked | None = None) -> Proof:
    """The proof of a book, of which editions are `asked` for next; Misuse where the folder is none."""
    is_asked(folder)
    return prove(folder, DiskStore(folder / FOLDER), workers=None, asked=asked)


def unsound(proof: Proof, undone: str) -> bool:
    """Whether the settings or the pantry have errors, which are told then: what enters every sum is not known, and nothing is made of it."""
    wrong = proof.book.unsound
    if wrong:
        print(as_text(wrong))
        print(f"what these files hold enters every sum; nothing was {undone}", file=sys.stderr)
    return bool(wrong)


def chosen(proof: Proof, meant: dict[str, set[str]]) -> list[Proofed]:
    """The recipes that words mean, all where there are none; Misuse where a word means no recipe that can be computed."""
    every = {one.computed.file.file: one for one in proof.recipes}
    for word, may in meant.items():
        if not may & every.keys():
            hint = suggest(Path(word).stem, [one.computed.slug for one in proof.recipes], "recipes")
            raise Misuse(f"there is no recipe {word!r} that can be computed; {hint}")
    asked = {file for may in meant.values() for file in may}
    return [one for file, one in every.items() if not asked or file in asked]


def scope(words: Sequence[str], book: Path | None) -> tuple[Path, dict[str, set[str]]]:
    """The book, and by each word the files that it may mean; a path to a file names its book too."""
    folder = book
    meant: dict[str, set[str]] = {}
    for word in words:
        path = Path(word)
        if path.suffix == ".md" and path.is_file():
            home = path.resolve().parent
            if folder is not None and folder.resolve() != home.parent:
                raise Misuse(f"{word} does not belong to the book {str(folder)!r}")
            folder = home.parent
            meant[word] = {f"{home.name}/{path.name}"}
        elif path.is_dir() and is_book(path) and len(words) == 1 and folder is None:
            folder = path
        else:
            stem = word.removesuffix(".md")
            meant[word] = {f"{home}/{stem}.md" for home in ("recipes", "classes")}
    return folder or Path(), meant
