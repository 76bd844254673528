"""JSON Schemas as an editor wants them: where a name is asked for, they may list those that a book has."""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping
from typing import Any, Literal, NamedTuple

from saponary.manual.keys import json_schema
from saponary.reading.names import NAME_PATTERN
from saponary.reading.plain import is_list, is_map

Kind = Literal[
    "oils", "additions", "botanicals", "liquids", "acids", "moulds", "recipes", "editions", "scents"
]
Names = Mapping[Kind, Mapping[str, str]]
"""By kind, the names that a book has, and what each is called."""


class Asked(NamedTuple):
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
