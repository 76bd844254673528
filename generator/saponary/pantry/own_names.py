"""Entries of the maker's own that a list of ingredients cannot name, or must not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from saponary.pantry.model import Ingredient, Pantry
from saponary.reading.findings import Finding
from saponary.reading.tree import Path, Tree
from saponary.schema.ingredient import IngredientEntry
from saponary.schema.pantry import PantryFile

UNNAMED = "unnamed-ingredient"


def check(pantry: Pantry, own: PantryFile, tree: Tree, file: str) -> Iterator[Finding]:
    """Warns of an entry that states no listed name and is like nothing that has one, and of a
    supplier within a name.
    """
    groups: tuple[tuple[str, Mapping[str, IngredientEntry], Mapping[str, Ingredient]], ...] = (
        ("oils", own.oils, pantry.oils),
        ("liquids", own.liquids, pantry.liquids),
        ("additions", own.additions, pantry.additions),
        ("colourants", own.colourants, pantry.additions),
        ("fragrances", own.fragrances, pantry.additions),
    )
    for group, entries, known in groups:
        for name, entry in entries.items():
            made = known.get(name)
            path: Path = (group, name)
            if made is not None and made.inci is None and not made.common and group != "fragrances":
                message = f"a list of ingredients cannot name {name!r}: no listed name of it is known"
                hint = "add inci: with the name on the supplier's papers, or like: with what it is"
                yield Finding(UNNAMED, "warning", tree.place(file, path, key=True), message, hint, name)
            if entry.supplier and entry.name and entry.supplier.casefold() in entry.name.casefold():
                message = f"the name of {name!r} holds its supplier, and names are published"
                hint = "leave the supplier to supplier:, which stays in this book"
                yield Finding(UNNAMED, "warning", tree.place(file, (*path, "name")), message, hint, name)
