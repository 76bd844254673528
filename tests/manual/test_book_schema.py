"""The schemas for editors know a book's own names, let its files pass, and refuse a name that it lacks."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from saponary.cli.main import main
from saponary.manual.book_names import names_of
from saponary.manual.book_schema import ASKED, Names, editors_schema
from saponary.manual.keys import PLACES, json_schema
from saponary.reading.names import NAME_PATTERN
from saponary.reading.plain import is_list, is_map
from support import BOOKS, PLAIN, some, write_book

FILES = {
    "recipe": "recipes/*.md",
    "batches": "batches/*.yaml",
    "book": "book.yaml",
    "pantry": "pantry.yaml",
    "class": "classes/*.md",
    "claims": "claims.yaml",
}
NO_BOOKS_OWN = {
    "of", "over", "into", "name", "portion", "colours", "law", "source", "listed-colour", "label-sheets", "press",
    "id", "packs", "moulds", "infusions", "scraps", "fragrances", "editions",
}  # fmt: skip
"""Keys that name what is new there, what is of the same file, or what is none of the book's."""


class Plain(yaml.SafeLoader):
    """YAML 1.2 as an editor reads it: a day is a text, and so is the key `on`."""


Plain.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in known if not tag.endswith(("timestamp", "bool"))]
    for first, known in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Plain.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(?:true|false)$"), list("tf"))


@cache
def names(book: str) -> Names:
    return names_of(BOOKS[book])


@cache
def validator(kind: str, book: str) -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(editors_schema(kind, names(book)))


def read(path: Path) -> Any:
    text = path.read_text(encoding="utf-8")
    return yaml.load(text.split("---\n", 2)[1] if path.suffix == ".md" else text, Loader=Plain)


@pytest.mark.parametrize("book", sorted(BOOKS))
@pytest.mark.parametrize("kind", sorted(FILES))
def test_a_books_files_pass(kind: str, book: str) -> None:
    for path in BOOKS[book].glob(FILES[kind]):
        found = [f"{list(e.path)}: {e.message[:200]}" for e in validator(kind, book).iter_errors(read(path))]
        assert found == [], path


@pytest.mark.parametrize(
    ("front", "at"),
    [
        ({"oils": {"total": "1000 g", "parts": {"olvie": "60 %"}}}, ["oils", "parts"]),
        ({"oils": {"olive": "600 g"}, "mould": "nowhere"}, ["mould"]),
        ({"oils": {"olive": "600 g"}, "additions": [{"what": "clay", "amount": "1 g"}]}, ["additions", 0, "what"]),
        ({"oils": {"olive": "600 g"}, "liquids": [{"what": "milk", "amount": "9 g"}]}, ["liquids", 0, "what"]),
        ({"oils": {"olive": "600 g"}, "superfatt": "5 %"}, []),
        ({"oils": {"olive": "600 g"}, "editions": ["pubic"]}, ["editions", 0]),
    ],
)  # fmt: skip
def test_a_name_that_the_book_lacks_is_refused(front: dict[str, Any], at: list[object]) -> None:
    whole = {"title": "A", **front}
    assert at in [list(error.path) for error in validator("recipe", "demo").iter_errors(whole)]


def test_its_own_names_are_offered(tmp_path: Path) -> None:
    root = write_book(
        tmp_path,
        {
            "recipes/a.md": PLAIN,
            "pantry.yaml": "oils:\n  tallow-jo: {like: lard, name: Jo's tallow}\n"
            "moulds: {tin: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}}\n",
        },
    )
    assert main(["schema", "--for", str(root)]) == 0
    told = json.loads((root / ".schema/recipe.json").read_text(encoding="utf-8"))
    assert (
        told["$defs"]["Oils"]["properties"]["parts"]["properties"]["tallow-jo"]["description"]
        == "Jo's tallow"
    )
    assert told["properties"]["mould"]["anyOf"][0]["enum"] == ["tin"]
    assert told["$defs"]["SoapPart"]["properties"]["of"]["enum"] == ["a"]
    assert {path.name for path in (root / ".schema").iterdir()} == {f"{kind}.json" for kind in PLACES}


def _named(node: object, part: str, key: str) -> Iterator[tuple[str, str]]:
    """Every part and key of a schema where a name is asked for."""
    if is_map(node):
        if node.get("pattern") == NAME_PATTERN or NAME_PATTERN in node.get("patternProperties", {}):
            yield part, key
        for name, value in node.items():
            if name == "$defs":
                for inner, one in value.items():
                    yield from _named(one, inner, "")
            elif name == "properties":
                for inner, one in value.items():
                    yield from _named(one, part, inner)
            else:
                yield from _named(value, part, key)
    elif is_list(node):
        for one in node:
            yield from _named(one, part, key)


@pytest.mark.parametrize("kind", sorted(PLACES))
def test_every_place_of_a_name_is_asked_for_or_none_of_the_books(kind: str) -> None:
    schema = json_schema(kind)
    for part, key in set(_named(schema, str(schema["title"]), "")):
        assert (part, key) in ASKED or key in NO_BOOKS_OWN, (
            f"add {part}.{key} to ASKED, or to the others here"
        )


def test_every_place_that_is_asked_for_is_there() -> None:
    schemas = [json_schema(kind) for kind in PLACES]
    there = {place for one in schemas for place in _named(one, str(one["title"]), "")}
    assert some(set(ASKED)) and set(ASKED) <= there


def test_what_begin_and_new_write_leads_to_a_schema(tmp_path: Path) -> None:
    root = tmp_path / "book"
    assert main(["begin", str(root), "--yes"]) == 0
    assert main(["new", "evening", "--book", str(root)]) == 0
    for name in ("book.yaml", "pantry.yaml", "recipes/evening.md", "recipes/my-first-bar.md"):
        text = (root / name).read_text(encoding="utf-8")
        (led,) = [
            line for line in text.splitlines()[:2] if line.startswith("# yaml-language-server: $schema=")
        ]
        assert ((root / name).parent / led.partition("$schema=")[2]).is_file()
    schema = json.loads((root / ".schema/recipe.json").read_text(encoding="utf-8"))
    assert "evening" in schema["$defs"]["SoapPart"]["properties"]["of"]["enum"]
    assert ".schema/" in (root / ".gitignore").read_text(encoding="utf-8").splitlines()
