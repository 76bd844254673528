"""Whether the folder that a command is about is a book."""

from __future__ import annotations

from pathlib import Path

from saponary.cli.command import Misuse
from saponary.reading.files import is_book


def is_asked(folder: Path) -> None:
    """Misuse where the folder is no book."""
    if not folder.is_dir():
        raise Misuse(f"there is no folder {str(folder)!r}")
    if not is_book(folder):
        raise Misuse(
            f"{str(folder)!r} is no book: it has neither recipes/ nor book.yaml (saponary begin FOLDER starts one)"
        )
