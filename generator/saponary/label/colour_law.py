"""Colours of a bar that the law of a place does not list for soap."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.label.contents import Contents
from saponary.label.names import plain
from saponary.label.tables import Jurisdiction
from saponary.pantry.model import Addition, Pantry
from saponary.schema.addition_entry import AdditionEntry


def unlisted(contents: Contents, pantry: Pantry, law: Jurisdiction) -> tuple[str, ...]:
    """Plain names of what colours the bar and is no listed colour there, each once, in the bar's order.

    A maker's own colourant is among them unless it states `listed-colour`.
    """
    if not law.unlisted_colours:
        return ()
    found = (entry for entry in _colouring(contents, pantry) if _wants_listing(entry, law))
    return tuple(dict.fromkeys(plain(entry)[0].partition(",")[0] for entry in found))


def _colouring(contents: Contents, pantry: Pantry) -> Iterator[Addition]:
    """What is stirred in, sprinkled on, or was steeped in an oil."""
    steeped = [name for part in contents.parts for name in part.infused_with]
    stocks = pantry.infusions
    names = [
        *(part.id for part in contents.parts if part.kind == "addition" and part.grams > 0),
        *contents.unweighed,
        *(stocks[name].botanical if name in stocks else name for name in steeped),
    ]
    yield from (pantry.additions[name] for name in names if name in pantry.additions)


def _wants_listing(entry: Addition, law: Jurisdiction) -> bool:
    """Whether it is there for its colour alone, as the tables' colourants and a maker's own are, unlisted."""
    stated = entry.entry
    if entry.colour is None or not isinstance(stated, AdditionEntry):
        return False
    coloured = law.id in (stated.law or {}) or (entry.own and stated.kind is None)
    return coloured and law.id not in (stated.listed_colour or ())
