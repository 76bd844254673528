"""Readable names for the ids of a recipe."""

from __future__ import annotations

from collections.abc import Sequence

from saponary.pantry.model import Pantry


def spoken(name: str) -> str:
    """An id as words."""
    return name.replace("-", " ")


def oil(shelf: Pantry, name: str) -> str:
    return shelf.oils[name].name if name in shelf.oils else spoken(name).capitalize()


def liquid(shelf: Pantry, name: str) -> str:
    found = shelf.liquid(name)
    return found.name if found else spoken(name).capitalize()


def addition(shelf: Pantry, name: str) -> str:
    return shelf.additions[name].name if name in shelf.additions else spoken(name).capitalize()


def botanical(shelf: Pantry, name: str) -> str:
    """What an oil was infused with; a stock of infused oil goes by its botanical."""
    if name in shelf.infusions:
        name = shelf.infusions[name].botanical
    found = shelf.botanical(name)
    return inside(found.name if found else spoken(name))


def inside(name: str) -> str:
    """A name inside a sentence: without what is said after a comma or in brackets, and with a
    small initial unless it is a proper name."""
    name = name.partition(",")[0].partition(" (")[0]
    first = name.split(" ", 1)[0]
    proper = first.isupper() or first in _PROPER or first.endswith("'s")
    return name if proper else name[:1].lower() + name[1:]


_PROPER = frozenset({"French", "Dead", "Moroccan", "Indian", "African", "Virginian"})


def listed(items: Sequence[str]) -> str:
    """`a, b and c`."""
    if len(items) < 2:
        return "".join(items)
    return ", ".join(items[:-1]) + " and " + items[-1]


def anything(shelf: Pantry, name: str) -> str:
    """A name for an id of any of the pantry's tables, or for an alkali."""
    if name in shelf.oils:
        return oil(shelf, name)
    return addition(shelf, name) if name in shelf.additions else liquid(shelf, name)
