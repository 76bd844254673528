"""The names that a book has, and the JSON Schemas that list them, in the book's `.schema/`.

The first line of a book's files leads an editor there. They are made anew at will.
"""

from __future__ import annotations

import json
from pathlib import Path

from saponary.book.parts import read_pantry, read_settings
from saponary.build.listed import lay
from saponary.build.written import list_of, own_folder
from saponary.manual.book_schema import Names, editors_schema
from saponary.manual.keys import PLACES
from saponary.reading.files import Folder, Unread
from saponary.schema.edition import editions
from saponary.schema.editors import SCHEMAS


def names_of(root: Path) -> Names:
    """The names that a book has, of its own and of the standard tables."""
    files = Folder(root)
    pantry, settings = read_pantry(files).value, read_settings(files).value
    listed = files.names("recipes")
    recipes = [] if isinstance(listed, Unread) else [name for name in listed if name.endswith(".md")]
    additions = {id: entry.name for id, entry in pantry.additions.items()}
    return {
        "oils": {id: entry.name for id, entry in pantry.oils.items()} | dict.fromkeys(pantry.infusions, ""),
        "additions": additions,
        "botanicals": {**additions, **dict.fromkeys(pantry.infusions, "")},
        "liquids": {id: one.name for id in (*pantry.liquids, *additions) if (one := pantry.liquid(id))},
        "acids": {id: one.name for id, one in pantry.additions.items() if one.acid > 0 and one.known},
        "moulds": dict.fromkeys(pantry.moulds, ""),
        "recipes": {name.removesuffix(".md"): "" for name in recipes},
        "editions": dict.fromkeys(editions(settings.editions), ""),
        "scents": dict.fromkeys(pantry.fragrances, ""),
    }


def write_schemas(root: Path) -> list[Path]:
    """Write those of every kind of file into a book's folder; the files written. Raises InTheWay."""
    names, folder = names_of(root), root / SCHEMAS
    files = {
        f"{file}.json": f"{json.dumps(editors_schema(file, names), indent=1, ensure_ascii=False)}\n".encode()
        for file in PLACES
    }
    own_folder(root)
    lay(folder, list_of(folder), files)
    return [folder / name for name in files]
