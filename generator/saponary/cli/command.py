"""What a command is, its exit statuses, and the arguments that several commands take.

Imports nothing that costs time: every command begins here.
"""

from __future__ import annotations

import argparse
import os
import time
from datetime import UTC, date, datetime
from pathlib import Path
from typing import NamedTuple

CLEAN, FOUND, MISUSE = 0, 1, 2


class Misuse(Exception):
    """Something was asked for that cannot be done; the message says what to do instead."""


class Unwritten(Exception):
    """Findings kept a command from writing; `told` is what they say."""

    def __init__(self, told: str) -> None:
        super().__init__(told)
        self.told = told


class Command(NamedTuple):
    """A command's name, what it does in one line, and the module that does it.

    The module has `arguments(parser)`, which says what may be given, and `run(given)`, which
    returns the exit status.
    """

    name: str
    about: str
    module: str


def day(text: str) -> date:
    """A day as an argument gives it."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date; write it as 2026-03-02") from None


def today() -> date:
    """Today, or the day of SOURCE_DATE_EPOCH where that is set, in UTC."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    return datetime.fromtimestamp(int(epoch) if epoch.isdigit() else time.time(), tz=UTC).date()


def book_argument(parser: argparse.ArgumentParser) -> None:
    """The book as the command's one object."""
    parser.add_argument(
        "book", type=Path, nargs="?", default=Path(), help="the book's folder (default: this one)"
    )


def book_option(
    parser: argparse.ArgumentParser, about: str = "the book's folder (default: this one)"
) -> None:
    """The book beside what the command is about."""
    parser.add_argument("--book", type=Path, default=None, help=about)


def telling_options(parser: argparse.ArgumentParser) -> None:
    """How findings are told, and whether warnings stop."""
    parser.add_argument("--strict", action="store_true", help="let warnings stop too")
    parser.add_argument("--format", choices=("text", "json", "sarif"), default="text")
