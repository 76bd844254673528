"""`saponary schema [PART] [--for BOOK]`."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from saponary.cli.command import CLEAN, Misuse

PARTS = ("recipe", "batches", "book", "pantry", "class", "claims")
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
    from saponary.manual.book_schema import Names, editors_schema

    names: Names = {}
    if given.book is not None:
        from saponary.build.listed import InTheWay
        from saponary.cli.is_asked import is_asked
        from saponary.cli.writing import writing
        from saponary.manual.book_names import names_of, write_schemas

        is_asked(given.book)
        if given.part is None:
            with writing(given.book, "schema"):
                try:
                    made = write_schemas(given.book)
                except InTheWay as there:
                    raise Misuse(f"{there}; nothing was written: move it away") from there
            print(*made, sep="\n")
            return CLEAN
        names = names_of(given.book)
    print(json.dumps(editors_schema(given.part or "recipe", names), indent=1, ensure_ascii=False))
    return CLEAN
