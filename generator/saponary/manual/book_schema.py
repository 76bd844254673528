"""The JSON Schemas of one book: where a name is asked for, they list those that this book has, for an editor to offer.

They lie in the book's `.schema/`, where the first line of its files leads an editor to them, and are made anew at will.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from saponary.assets.disk import put
from saponary.book.parts import read_pantry, read_settings
from saponary.manual.keys import MODELS, json_schema
from saponary.reading.files import Folder, Unread
from saponary.reading.plain import is_list, is_map
from saponary.schema.edition import editions
from saponary.schema.editors import SCHEMAS
from saponary.schema.fields import NAME_PATTERN

Kind = Literal[
    "oils", "additions", "botanicals", "liquids", "acids", "moulds", "recipes", "editions", "scents"
]
Names = Mapping[Kind, Mapping[str, str]]
"""By kind, the names that a book has, and what each is called."""


@dataclass(frozen=True)
class Asked:
    """Names of one kind are asked for. `open` where others may stand there too."""

    kind: Kind
    open: bool = False


_OILS = Asked("oils")
ASKED: Mapping[tuple[str, str], Asked] = {
    ("Addition", "what"): Asked("additions"),
    ("AdditionEntry", "like"): Asked("additions"),
    ("Batch", "editions"): Asked("editions"),
    ("Batch", "oil-lots"): _OILS,
    ("ClassPlan", "editions"): Asked("editions"),
    ("ClassPlan", "mould"): Asked("moulds"),
    ("ClassPlan", "recipes"): Asked("recipes"),
    ("Dilute", "acid"): Asked("acids"),
    ("Fill", "mould"): Asked("moulds"),
    ("FragranceEntry", "blend"): Asked("scents", open=True),
    ("FragranceEntry", "like"): Asked("scents", open=True),
    ("InfusionEntry", "botanical"): Asked("botanicals", open=True),
    ("InfusionEntry", "carrier"): _OILS,
    ("Liquid", "what"): Asked("liquids"),
    ("LiquidEntry", "like"): Asked("liquids"),
    ("OilEntry", "like"): _OILS,
    ("OilPart", "infused-with"): Asked("botanicals", open=True),
    ("Oils", "after-cook"): _OILS,
    ("Oils", "parts"): _OILS,
    ("PantryFile", "additions"): Asked("additions", open=True),
    ("PantryFile", "colourants"): Asked("additions", open=True),
    ("PantryFile", "liquids"): Asked("liquids", open=True),
    ("PantryFile", "oils"): Asked("oils", open=True),
    ("Portion", "infused"): _OILS,
    ("PortionOils", "parts"): _OILS,
    ("Recipe", "editions"): Asked("editions"),
    ("Recipe", "mould"): Asked("moulds"),
    ("ScrapEntry", "of"): Asked("recipes"),
    ("Settings", "build"): Asked("editions"),
    ("Size", "mould"): Asked("moulds"),
    ("SoapPart", "of"): Asked("recipes"),
    ("Top", "sprinkle"): Asked("additions"),
}
"""By the part of the schema and its key: what is named there. A key of a list or a map stands for its parts."""


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


def editors_schema(file: str, names: Names) -> dict[str, Any]:
    """The JSON Schema of a kind of file as an editor wants it, with these names where such are asked for."""
    whole = copy.deepcopy(json_schema(file))
    parts = {str(whole.get("title", "")): whole, **whole.get("$defs", {})}
    for (part, key), asked in ASKED.items():
        if part in parts and asked.kind in names:
            for node in _maps(parts[part]):
                if key in node.get("properties", {}):
                    _name(node["properties"][key], asked, names[asked.kind])
    _loosen(whole)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **whole}


def write_schemas(root: Path) -> list[Path]:
    """Write those of every kind of file into a book's folder; the files written."""
    names = names_of(root)
    made: list[Path] = []
    for file in MODELS:
        path = root / SCHEMAS / f"{file}.json"
        put(path, (json.dumps(editors_schema(file, names), indent=1, ensure_ascii=False) + "\n").encode())
        made.append(path)
    return made


def _maps(node: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """A part of a schema, in each of the ways in which it may be written."""
    yield node
    yield from node.get("anyOf", ())


def _name(node: dict[str, Any], asked: Asked, names: Mapping[str, str]) -> None:
    """Have a schema list names wherever it takes one."""
    for one in _maps(node):
        if "items" in one:
            for each in _maps(one["items"]):
                _name(each, asked, names)
        elif NAME_PATTERN in one.get("patternProperties", {}):
            value = one["patternProperties"][NAME_PATTERN]
            one["properties"] = {id: _told(value, called) for id, called in names.items()}
            if not asked.open:
                del one["patternProperties"]
                one["additionalProperties"] = False
        elif one.get("pattern") == NAME_PATTERN and names:
            listed = {"enum": list(names), "enumDescriptions": list(names.values())}
            if asked.open:
                one["anyOf"] = [listed, {"pattern": one.pop("pattern")}]
            else:
                del one["pattern"]
                one |= listed


def _loosen(node: object) -> None:
    """Let a text be a number or a word such as `yes`: a book's files are read as text, an editor reads YAML."""
    if is_map(node):
        if node.get("type") == "string" and "maxLength" in node:
            node["type"] = ["string", "number", "boolean"]
        for value in node.values():
            _loosen(value)
    elif is_list(node):
        for value in node:
            _loosen(value)


def _told(value: dict[str, Any], called: str) -> dict[str, Any]:
    return {"description": called, **value} if called else value
