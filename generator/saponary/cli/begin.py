"""`saponary begin FOLDER`: asks what it needs on a terminal, or takes it as options."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Callable
from pathlib import Path

from saponary.cli.command import CLEAN, FOUND, Misuse
from saponary.cli.shell import quoted
from saponary.reading.findings import Finding, has_errors
from saponary.schema.settings import Settings

UNITS = ("g", "oz")
PLACES = ("us", "eu", "gb")
_TAG = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")
_WEIGHT = re.compile(r"\d+(\.\d+)? *(g|oz|kg|lb)")


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path)
    parser.add_argument("--units", choices=UNITS, help="the unit of weights (default: g)")
    parser.add_argument(
        "--sold-in",
        choices=PLACES,
        action="append",
        help="a place where you sell; may be given several times",
    )
    parser.add_argument(
        "--language", type=_language, metavar="TAG", help="the language of the pages (default: en)"
    )
    parser.add_argument(
        "--scale-step", type=_step, metavar="WEIGHT", help="the least your scale shows (default: 1 g)"
    )
    parser.add_argument("--emergency", metavar="NUMBER", help="your emergency number (default: the place's)")
    parser.add_argument("--maker", metavar="NAME", help="who makes the soap")
    parser.add_argument(
        "--from",
        dest="table",
        type=Path,
        metavar="TABLE",
        help="your own table of oils and weights (.csv or .xlsx): recipes are made of it instead of the starters",
    )
    parser.add_argument(
        "--yes", action="store_true", help="ask nothing; take what is not given as it is by default"
    )


def run(given: argparse.Namespace) -> int:
    # What computes and tells is imported for this command alone.
    from saponary.build.begin import Asked, Occupied, begin, settings_of
    from saponary.cli.writing import schemas_beside, writing
    from saponary.reading.findings_text import as_text

    asks = not given.yes and sys.stdin.isatty() and sys.stdout.isatty()
    ask = _ask if asks else _silent
    units = given.units or ask("Weights in g or oz", "g", lambda text: _one_of(text, UNITS))
    places = given.sold_in or _places(
        ask("Where do you sell: us, eu, gb, or nowhere", "nowhere", _places_or_none)
    )
    asked = Asked(
        units=units,
        sold_in=tuple(dict.fromkeys(places)),
        language=given.language or ask("Language of the pages", "en", _language),
        scale_step=given.scale_step or ask("The least your scale shows", Asked(units).step, _step),
        emergency=given.emergency or ask("Emergency number", Asked(sold_in=tuple(places)).number, str),
        maker=given.maker or ask("Who makes the soap", "", str),
    )
    own, told = (
        _brought_in(given.table, settings_of(asked)) if given.table is not None else (None, list[Finding]())
    )
    if told:
        print(as_text(told))
    if own is not None and not own:
        print("no recipe could be made of this table; nothing was written", file=sys.stderr)
        return FOUND
    try:
        written = begin(given.folder, asked, own)
    except Occupied as occupied:
        raise Misuse(f"{occupied} is there already; nothing was written") from occupied
    with writing(given.folder, "begin"):
        schemas_beside(given.folder)
    folder = quoted(given.folder)
    print(f"{given.folder}: a new book of {sum(p.parent.name == 'recipes' for p in written)} recipes")
    print("next:")
    print(f"  saponary build {folder}")
    print(f"  saponary new evening-bar --book {folder}")
    print("  saponary manual first-recipe")
    return FOUND if has_errors(told) else CLEAN


def _brought_in(table: Path, settings: Settings) -> tuple[dict[str, str], list[Finding]]:
    """The recipes of a maker's own table by name, and what is to be told of it."""
    from saponary.build.from_table import recipes_from
    from saponary.pantry.standard import standard
    from saponary.reading.grid import MOST_BYTES

    try:
        with table.open("rb") as opened:
            data = opened.read(MOST_BYTES + 1)
    except OSError as error:
        raise Misuse(f"{table}: {error.strerror or error}") from error
    return recipes_from(data, str(table), settings, standard())


def _silent(question: str, default: str, read: Callable[[str], str]) -> str:
    return default


def _ask(question: str, default: str, read: Callable[[str], str]) -> str:
    """The answer, asked again until it can be read; an empty one is the default."""
    while True:
        try:
            said = input(f"{question} [{default}]: ").strip()
        except EOFError:
            return default
        if not said:
            return default
        try:
            return read(said)
        except argparse.ArgumentTypeError as wrong:
            print(wrong)


def _one_of(text: str, known: tuple[str, ...]) -> str:
    if text not in known:
        raise argparse.ArgumentTypeError(f"{text!r} is not one of {', '.join(known)}")
    return text


def _places(text: str) -> list[str]:
    return [] if text == "nowhere" else re.split(r"[ ,]+", text)


def _places_or_none(text: str) -> str:
    for place in _places(text):
        _one_of(place, PLACES)
    return text


def _language(text: str) -> str:
    if not _TAG.fullmatch(text):
        raise argparse.ArgumentTypeError(f"{text!r} is not a language tag, such as en or de-AT")
    return text


def _step(text: str) -> str:
    if not _WEIGHT.fullmatch(text):
        raise argparse.ArgumentTypeError(f"{text!r} is not a weight, such as 1 g or 0.05 oz")
    return text
