"""The command line. Exit 0 when clean, 1 when there are findings that stop, 2 when asked for
something that cannot be done, 130 when stopped from the keyboard.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from importlib import import_module
from io import TextIOWrapper
from pathlib import Path
from typing import TextIO

from saponary import __version__
from saponary.cli.command import CLEAN, FOUND, MISUSE, Command, Misuse, Unwritten
from saponary.cli.start import INTERRUPTED, STOPPED

COMMANDS: tuple[Command, ...] = (
    Command("begin", "start a new book from the starter recipes", "saponary.cli.begin"),
    Command("new", "write a recipe with every common key, commented", "saponary.cli.new"),
    Command("proof", "recompute and check every recipe; write nothing", "saponary.cli.proof"),
    Command("build", "proof the book and write its site", "saponary.cli.build"),
    Command("watch", "show the book in a browser while you write", "saponary.cli.watch"),
    Command(
        "sign",
        "sign figures: write today's where recipes and classes have them",
        "saponary.cli.sign",
    ),
    Command(
        "record",
        "record a batch with today's fingerprint, its weights to be filled in",
        "saponary.cli.record",
    ),
    Command(
        "compare", "tell what changed in the figures since a revision, or between two", "saponary.cli.compare"
    ),
    Command("export", "write weigh sheets and a table of figures as CSV", "saponary.cli.export"),
    Command("labels", "write label sheets as PDF, with --lot those of one lot", "saponary.cli.labels"),
    Command("schema", "print the JSON Schema of a recipe's front matter", "saponary.cli.schema"),
    Command("pantry", "list what a recipe may name, with the names to write", "saponary.cli.pantry"),
    Command("rules", "say what the rules are for", "saponary.cli.rules"),
    Command("manual", "explain topics, keys and rules, or search them", "saponary.cli.manual"),
)
"""All commands, in the order the help lists them. Modules are named and not imported, for the
drawing and PDF libraries behind `build` would make every other command wait."""

_RENAMED = {"restate": "sign", "pour": "record"}
"""Commands that had another name."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    try:
        return _main(sys.argv[1:] if argv is None else list(argv))
    except KeyboardInterrupt:
        print(STOPPED, file=sys.stderr)
        return INTERRUPTED


def _main(words: Sequence[str]) -> int:
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    # Looking through every installed package for a plugin of pydantic's costs more than reading a book.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    if words[:1] and words[0] in _RENAMED:
        print(f"saponary: `{words[0]}` is called `{_RENAMED[words[0]]}` now", file=sys.stderr)
        return MISUSE
    try:
        given = _parser(words).parse_args(words)
    except SystemExit as stop:
        return int(stop.code or 0)
    run: Callable[[argparse.Namespace], int] = given.run
    try:
        status = run(given)
        sys.stdout.flush()
        return status
    except Misuse as misuse:
        print(f"saponary: {misuse}", file=sys.stderr)
        return MISUSE
    except BrokenPipeError:
        _give_up(sys.stdout)
        return CLEAN
    except OSError as error:
        return _of_disk(error, given)
    except Unwritten as unwritten:
        return _unwritten(unwritten.told)


def _give_up(stream: TextIO) -> None:
    """What still waits to be printed goes nowhere, lest Python try it once more at its end."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _of_disk(error: OSError, given: argparse.Namespace) -> int:
    # What tells of findings is imported where there is something to tell.
    from saponary.build.unwritten import of_disk
    from saponary.reading.findings_text import as_text

    folder = getattr(given, "book", None) or getattr(given, "folder", None) or Path()
    told = as_text([of_disk(error, folder)])
    status = _unwritten(told, "every file is whole, as it was or as it was to be")
    try:
        sys.stdout.flush()
    except OSError:
        _give_up(sys.stdout)
    return status


def _unwritten(told: str, so: str = "nothing was written") -> int:
    """Tell what kept a command from writing: on the other stream, for what was found may have gone to a program."""
    try:
        print(f"{told}\n{so}", file=sys.stderr, flush=True)
    except OSError:  # it leads to the very disk that is full
        _give_up(sys.stderr)
    return FOUND


def _parser(words: Sequence[str]) -> argparse.ArgumentParser:
    """The parser, with the arguments of the command asked for: the first word that is no option."""
    parser = argparse.ArgumentParser(
        prog="saponary",
        description="A soap maker's recipe book whose numbers are recomputed at every build.",
        epilog="saponary manual explains topics, keys and rules; saponary manual first-recipe is where to begin.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"saponary {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    wanted = next((word for word in words if not word.startswith("-")), None)
    for command in COMMANDS:
        own = commands.add_parser(
            command.name, help=command.about, description=command.about, allow_abbrev=False
        )
        if command.name == wanted:
            module = import_module(command.module)
            module.arguments(own)
            own.set_defaults(run=module.run)
    return parser
