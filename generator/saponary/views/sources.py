"""Where a figure of the shelf comes from, as a page tells it: how it is known, in what, and where in it.

What a maker wrote of a source is the maker's: of an entry of the maker's own no more is told
than that, but for figures that it takes over from a table as they stand.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.messages.message import Message, Value, clauses, message
from saponary.pantry.model import Ingredient, Pantry, Source
from saponary.pantry.standard import standard


class Known(NamedTuple):
    """One source: what it stands for ('' where that is plain), how it is known, its title, and the place."""

    what: Value
    how: Message
    title: str
    where: str


def known(entry: Ingredient, shelf: Pantry, *groups: str) -> Iterator[Known]:
    """The sources of these groups of figures, those that the entry states."""
    for group in groups:
        source = entry.source.get(group)
        if source is not None:
            what = message(f"source.{group}") if len(groups) > 1 else ""
            yield _known(what, source, shelf, entry.own and source not in _of_tables(entry))


def where(source: Source, shelf: Pantry) -> Value:
    """The title and the place, in one line."""
    return clauses(_title(source, shelf), source.where or "")


KEYS_BY_ID = {
    "source.": ("saponification-value", "saponification-value-range", "iodine-value", "iodine-value-range")
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _known(what: Value, source: Source, shelf: Pantry, private: bool) -> Known:
    if private:
        return Known(what, message("known.maker"), "", "")
    return Known(what, message(f"known.{source.how}"), _title(source, shelf), source.where or "")


def _title(source: Source, shelf: Pantry) -> str:
    return shelf.publications.get(source.publication, source.publication) if source.publication else ""


def _of_tables(entry: Ingredient) -> tuple[Source, ...]:
    """The sources that the table's row of the same name states."""
    shelf = standard()
    for rows in (shelf.oils, shelf.liquids, shelf.additions):
        row: Ingredient | None = rows.get(entry.id)
        if row is not None:
            return tuple(row.source.values())
    return ()
