"""Readable names for the ids of a recipe."""

from __future__ import annotations

from collections.abc import Iterable

from saponary.messages.message import Listed, Message, Within, message
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
    return found.name if found else spoken(name)


def anything(shelf: Pantry, name: str) -> str:
    """A name for an id of any of the pantry's tables, or for an alkali."""
    if name in shelf.oils:
        return oil(shelf, name)
    return addition(shelf, name) if name in shelf.additions else liquid(shelf, name)


def together(shelf: Pantry, ids: Iterable[str]) -> Listed:
    """Several ids in one sentence, each as it stands within it."""
    return Listed(tuple(Within(anything(shelf, name)) for name in ids))


def charge(name: str) -> Message:
    """What an alkali or the plain water is called on a weigh sheet, by the name of its figure."""
    return message(f"charge.{name}")


KEYS_BY_ID = {"charge.": ("sodium-hydroxide", "potassium-hydroxide", "plain-water")}
"""Keys that are put together here: what they start with, and the ids that may follow."""
