"""`saponary schema [PART] [--for BOOK]`."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from saponary.cli.command import CLEAN, Misuse

PARTS = ("recipe", "batches", "book", "pantry", "class", "page", "claims")
"""The kinds of file; the models behind them are imported where one is printed."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("part", nargs="?", choices=PARTS, help="the kind of file (default: recipe)")
    parser.add_argument(
        "--for",
        dest="book",
        type=Path,
        metavar="BOOK",
        help="list the names that this book has; without a kind of file, write all into its .schema/",
    )


def run(given: argparse.Namespace) -> int:
    part = given.part or "recipe"
    if given.book is None:
        print(_text(part))
        return CLEAN
    from saponary.build.listed import InTheWay
    from saponary.cli.is_asked import is_asked
    from saponary.cli.writing import writing
    from saponary.manual.book_names import write_schemas

    is_asked(given.book)
    if given.part is not None:
        print(_text(part, given.book))
        return CLEAN
    with writing(given.book, "schema"):
        try:
            made = write_schemas(given.book)
        except InTheWay as there:
            raise Misuse(f"{there}; nothing was written: move it away") from there
    print(*made, sep="\n")
    return CLEAN


def _text(part: str, book: Path | None = None) -> str:
    """The schema of a kind of file, with the names of a book."""
    from saponary.manual.book_schema import Names, editors_schema

    names: Names = {}
    if book is not None:
        from saponary.manual.book_names import names_of

        names = names_of(book)
    return json.dumps(editors_schema(part, names), indent=1, ensure_ascii=False)
