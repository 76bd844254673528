"""Brings recipes in from a maker's own table: a file's bytes to recipes' texts by name. Writes nothing."""

from __future__ import annotations

from pathlib import PurePath

from saponary.book.from_sheet import sheets
from saponary.book.sheet_recipe import recipe_of, slug_of
from saponary.book.sheet_words import Names
from saponary.pantry.model import Pantry
from saponary.reading.findings import Finding, Place
from saponary.reading.grid import read_grids
from saponary.schema.settings import Settings


def recipes_from(
    data: bytes, file: str, settings: Settings, pantry: Pantry
) -> tuple[dict[str, str], list[Finding]]:
    """The text of each recipe by its slug, and all that is to be told of the table."""
    grids, found = read_grids(data, file, PurePath(file).stem)
    names = Names(pantry)
    recipes: dict[str, str] = {}
    for grid in grids:
        read, faults = sheets(grid, names)
        found += faults
        for sheet in read:
            text, told = recipe_of(sheet, file, settings, pantry)
            found += told
            if text is not None:
                recipes[_free(slug_of(sheet.title), recipes)] = text
    if not recipes and not any(one.severity == "error" for one in found):
        hint = "give it a row of headings, such as: ingredient, grams; and rows of ingredients below it"
        found.append(Finding("reading", "error", Place(file), "no recipe is found in this table", hint))
    return recipes, found


def _free(slug: str, taken: dict[str, str]) -> str:
    number, name = 1, slug
    while name in taken:
        number += 1
        name = f"{slug}-{number}"
    return name
