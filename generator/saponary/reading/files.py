"""The files of a book."""

from __future__ import annotations

from pathlib import Path


def is_book(root: Path) -> bool:
    """A folder with `recipes/` or `book.yaml` is a book."""
    return (root / "recipes").is_dir() or (root / "book.yaml").is_file()
