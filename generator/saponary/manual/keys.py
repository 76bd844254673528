"""Every key that may be written, by the file it stands in: read off the schemas of those files.

The schemas travel with the program, so that nobody waits for the models to be built who asks what may be written.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, NamedTuple

from saponary.manual.bases import top_keys
from saponary.manual.form import Node, alternatives, form, resolved, words_of
from saponary.reading.plain import is_map

NAME = "NAME"
"""Stands in a path for a name of the maker's own."""


class Key(NamedTuple):
    """One key of one kind of file.

    `path` leads to it from the file's top, over lists without a step, and over names as `NAME`. `seen` says by which
    of an edition's fields it is seen; `model` is the part of the schema that has it.
    """

    file: str
    path: tuple[str, ...]
    model: str
    meaning: str
    example: str
    form: str
    words: tuple[str, ...]
    required: bool
    default: object
    seen: tuple[str, ...]
    since: str

    @property
    def name(self) -> str:
        return self.path[-1]

    @property
    def dotted(self) -> str:
        return ".".join(self.path)


PLACES: Mapping[str, str] = {
    "recipe": "recipes/NAME.md",
    "batches": "batches/NAME.yaml",
    "book": "book.yaml",
    "pantry": "pantry.yaml",
    "class": "classes/NAME.md",
    "page": "pages/NAME.md",
    "claims": "claims.yaml",
}
"""The kinds of file, and where each lies in a book."""


def json_schema(file: str) -> dict[str, Any]:
    """The JSON Schema of a kind of file, with the texts of its keys, as `models.py` wrote it."""
    schema: dict[str, Any] = json.loads(kept(file).read_bytes())
    return schema


def kept(file: str) -> Traversable:
    """The file that holds the JSON Schema of a kind of file."""
    return files("saponary.tables.schemas").joinpath(f"{file}.json")


@cache
def keys_of(file: str) -> tuple[Key, ...]:
    """The keys of one kind of file, from its top down, in the order of the schema."""
    whole = json_schema(file)
    found = _walk(_File(file, frozenset(whole["properties"]), whole.get("$defs", {})), whole, (), "")
    return tuple({key.path: key for key in found}.values())


def all_keys() -> tuple[Key, ...]:
    """The keys of every kind of file."""
    return tuple(key for file in PLACES for key in keys_of(file))


class _File(NamedTuple):
    """A kind of file: its name, the keys at its top, and the definitions of its schema."""

    name: str
    tops: frozenset[str]
    definitions: Node

    def example(self, own: str, above: str) -> str:
        """A key's own example, where its lines may stand in this file; else that of the key it stands under."""
        return own if own and self.tops.issuperset(top_keys(own)) else above


def _walk(file: _File, node: Node, path: tuple[str, ...], above: str) -> Iterator[Key]:
    """The keys below a map of keys; `above` is the example of the key that it stands under. A key that
    is another way to write one is told with that one.
    """
    for name, said in node.get("properties", {}).items():
        if "x-also" in said:
            continue
        key = _key(file, node, name, said, (*path, name), above)
        yield key
        for inner, at in _inside(said, file.definitions, key.path):
            yield from _walk(file, inner, at, key.example)


def _key(file: _File, node: Node, name: str, said: Node, path: tuple[str, ...], above: str) -> Key:
    return Key(
        file=file.name,
        path=path,
        model=str(node.get("title", "")),
        meaning=str(said.get("x-meaning", "")),
        example=file.example(str(said.get("x-example", "")), above),
        form=form(said, file.definitions),
        words=words_of(said, file.definitions),
        required=name in node.get("required", ()),
        default=said.get("default"),
        seen=tuple(said.get("x-seen", ())),
        since=str(said.get("x-since", "")),
    )


def _inside(node: Node, definitions: Node, path: tuple[str, ...]) -> Iterator[tuple[Node, tuple[str, ...]]]:
    """The maps of keys in a value, through lists and through names, with their paths."""
    for one in alternatives(node, definitions):
        if one.get("type") == "array":
            yield from _inside(one.get("items", {}), definitions, path)
        elif "properties" in one:
            yield resolved(one, definitions), path
        else:
            for named in (one.get("additionalProperties"), *one.get("patternProperties", {}).values()):
                if is_map(named):
                    yield from _inside(named, definitions, (*path, NAME))


def default_of(key: Key) -> str:
    """What holds where the key is left out, as it would be written; '' for nothing, and for keys of its own."""
    if isinstance(key.default, bool):
        return str(key.default).lower()
    return str(key.default) if isinstance(key.default, str | int | float) else ""
