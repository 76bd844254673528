"""`saponary pantry GROUP`: what a recipe may name, the maker's own included."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable
from pathlib import Path

from saponary.cli.command import CLEAN, Misuse, book_option
from saponary.lye.mould import Mould, millilitres
from saponary.pantry.model import Addition, Liquid, Oil, Pantry
from saponary.pantry.standard import standard
from saponary.quantity.rounding import show
from saponary.reading.files import Folder, is_book


def _oil(oil: Oil) -> str:
    value = oil.saponification_value
    band = f", {show(value.low, 0)} to {show(value.high, 0)}" if value.high > value.low else ""
    return f"{oil.name}: saponification value {show(value.value, 1)} mg/g{band}"


def _liquid(liquid: Liquid) -> str:
    return f"{liquid.name}: {show(100 * liquid.water, 1)} % water"


def _addition(addition: Addition) -> str:
    if addition.usual is None:
        return addition.name
    low, high = addition.usual
    return f"{addition.name}: usually {show(low, 1)} to {show(high, 1)} g per kg of oils"


def _mould(mould: Mould) -> str:
    return f"{mould.kind}, {show(millilitres(mould), 0)} ml"


def _lines(entries: Iterable[tuple[str, str]]) -> list[str]:
    rows = sorted(entries)
    width = max((len(name) for name, _ in rows), default=0)
    return [f"{name:<{width}}  {told}" for name, told in rows]


GROUPS: dict[str, Callable[[Pantry], list[str]]] = {
    "oils": lambda pantry: _lines((n, _oil(oil)) for n, oil in pantry.oils.items()),
    "liquids": lambda pantry: _lines((n, _liquid(liquid)) for n, liquid in pantry.liquids.items()),
    "additions": lambda pantry: _lines(
        (n, _addition(one)) for n, one in pantry.additions.items() if one.colour is None
    ),
    "colourants": lambda pantry: _lines(
        (n, _addition(one)) for n, one in pantry.additions.items() if one.colour is not None
    ),
    "infusions": lambda pantry: _lines(
        (n, f"{one.botanical} in {one.carrier}") for n, one in pantry.infusions.items()
    ),
    "moulds": lambda pantry: _lines((n, _mould(mould)) for n, mould in pantry.moulds.items()),
}
"""By the word asked for: the lines of that part of the pantry, a name and what it is."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("group", nargs="?", choices=tuple(GROUPS), help="one part of it (default: all)")
    book_option(parser, "the book whose own pantry counts too")


def run(given: argparse.Namespace) -> int:
    folder = given.book or Path()
    if given.book is not None and not is_book(folder):
        raise Misuse(f"{str(folder)!r} is no book: it has neither recipes/ nor book.yaml")
    held = _own(folder) if is_book(folder) and Folder(folder).has("pantry.yaml") else standard()
    for group in (given.group,) if given.group else GROUPS:
        lines = GROUPS[group](held)
        if lines:
            print("\n".join(lines if given.group else [f"{group}:", *(f"  {line}" for line in lines)]))
    return CLEAN


def _own(folder: Path) -> Pantry:
    """A book's pantry. What reads it is imported for a book that has one alone."""
    from saponary.book.parts import read_pantry

    return read_pantry(Folder(folder)).value
