"""`saponary pantry GROUP`: what a recipe may name, the maker's own included."""

from __future__ import annotations

import argparse
import re
from collections.abc import Mapping
from pathlib import Path

from saponary.cli.command import CLEAN, Misuse, book_option
from saponary.pantry.lines import GROUPS, Lines, of_tables
from saponary.reading.files import Folder, is_book


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("group", nargs="?", choices=GROUPS, help="one part of it (default: all)")
    book_option(parser, "the book whose own pantry counts too")


def run(given: argparse.Namespace) -> int:
    folder = given.book or Path()
    if given.book is not None and not is_book(folder):
        raise Misuse(f"{str(folder)!r} is no book: it has neither recipes/ nor book.yaml")
    held = _own(folder) if is_book(folder) else of_tables()
    for group in (given.group,) if given.group else GROUPS:
        lines = _table(held.get(group, {}))
        if lines:
            print("\n".join(lines if given.group else [f"{group}:", *(f"  {line}" for line in lines)]))
    return CLEAN


def _table(told: Mapping[str, str]) -> list[str]:
    width = max(map(len, told), default=0)
    return [f"{name:<{width}}  {_HEX.sub(_worded, what)}" for name, what in sorted(told.items())]


_HEX = re.compile(r"#[0-9a-f]{6}\b")


def _worded(found: re.Match[str]) -> str:
    """A colour in words, with its number. What words it is imported where there is one."""
    from saponary.messages.speaker import speaker
    from saponary.views.colour_words import in_words

    return f"{speaker().say(in_words(found[0]))} ({found[0]})"


def _own(folder: Path) -> Lines:
    """A book's pantry, in the units of the book. What reads it is imported for a book alone."""
    from saponary.book.parts import read_pantry, read_settings
    from saponary.pantry.own_lines import lines_of

    files = Folder(folder)
    units = read_settings(files).value.units
    return lines_of(read_pantry(files).value, units) if files.has("pantry.yaml") else of_tables(units)
