"""What of a book's files one recipe's figures rest on, so that a change of anything else computes nothing anew.

Of its own file that is the front matter; of the pantry the entries that it names, and those that these name.
Whatever is not plainly readable counts whole.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import lru_cache

from saponary.assets.digest import digest
from saponary.book.figure import MAX_FIGURES
from saponary.book.file_names import PANTRY_FILE
from saponary.reading.decode import decoded
from saponary.reading.front_matter import Parts, control, split
from saponary.reading.plain import is_map
from saponary.reading.yaml_tree import read_yaml

_TABLES = ("oils", "liquids", "additions", "colourants", "moulds", "infusions", "scraps", "fragrances")


def told_by(data: bytes) -> bytes:
    """What a recipe's file says of its figures."""
    text, fault = decoded(data, "")
    parts = split(text, "", "") if text is not None else fault
    if text is None or not isinstance(parts, Parts):
        return data
    plain = control(text, parts.body) is None and text.count("{") <= MAX_FIGURES
    return text[: parts.body].encode("utf-8") if plain else data


def shelf(pantry: bytes, words: str) -> str:
    """A digest of what a pantry holds for someone who says these words."""
    found = _entries(pantry)
    if found is None:
        return digest(pantry)
    rest, entries = found
    used: dict[tuple[str, str], str] = {}
    said = words
    while True:
        more = {
            key: entry for key, entry in entries.items() if key not in used and key[1].split("-")[0] in said
        }
        if not more:
            return digest((rest, sorted(used.items())))
        used |= more
        said = "\n".join(more.values())


@lru_cache(maxsize=4)
def _entries(pantry: bytes) -> tuple[str, Mapping[tuple[str, str], str]] | None:
    """What else a pantry says, and each of its entries as text by table and id; None where it cannot be read."""
    if not pantry.strip():
        return "", {}
    text, _ = decoded(pantry, PANTRY_FILE)
    tree, faults = read_yaml(text, PANTRY_FILE) if text is not None else (None, [])
    if tree is None or faults or not is_map(tree.data):
        return None
    tables = {table: tree.data[table] for table in _TABLES if is_map(tree.data.get(table))}
    rest = {key: value for key, value in tree.data.items() if key not in tables}
    entries = {
        (table, str(id)): json.dumps(entry, sort_keys=True)
        for table, rows in tables.items()
        for id, entry in rows.items()
    }
    return json.dumps(rest, sort_keys=True), entries
