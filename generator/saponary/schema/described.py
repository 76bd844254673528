"""What a key means: the text below its field in the source of its model, read where it is asked for.

Such a text says what the key means, then, where it came later than the first release, `Since 0.2.`, and
ends with `Example:` and a few lines of the file that the key stands in, beginning at the file's left edge.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from inspect import cleandoc
from pathlib import Path
from textwrap import dedent
from typing import Any

from pydantic import BaseModel

from saponary.schema.seen import marks

FIRST = "0.1"
"""The release from which a key may be written whose text does not say."""

_SINCE = re.compile(r"\s*Since (\d+\.\d+)\.$")


@dataclass(frozen=True)
class Described:
    """A key's text: its meaning, an example as lines of YAML, and the release it came with."""

    meaning: str
    example: str
    since: str = FIRST

    @property
    def hover(self) -> str:
        """All of it, as an editor shows it."""
        return f"{self.meaning}\n\nExample:\n{self.example}" if self.example else self.meaning


def described(model: type[BaseModel]) -> Mapping[str, Described]:
    """The texts of a model's fields, by the field's name; those of the models it is made from too."""
    found: dict[str, Described] = {}
    for kind in reversed(model.__mro__):
        if issubclass(kind, BaseModel) and kind is not BaseModel:
            found |= _written(kind.__module__).get(kind.__qualname__, {})
    return {name: text for name, text in found.items() if name in model.model_fields}


def into_schema(model: type[BaseModel], made: dict[str, Any]) -> None:
    """Put the texts of a model into its JSON Schema, and by which of an edition's fields each key is seen."""
    texts, seen = described(model), marks(model)
    for name, field in model.model_fields.items():
        key = made.get("properties", {}).get(field.alias or name)
        if key is None:
            continue
        if name in texts:
            key["description"] = texts[name].hover
            key["x-meaning"], key["x-example"] = texts[name].meaning, texts[name].example
            key["x-since"] = texts[name].since
        if name in seen:
            key["x-seen"] = sorted(seen[name].by)


def parsed(text: str) -> Described:
    """A text taken apart."""
    head, _, example = cleandoc(text).rpartition("Example:")
    if not head:
        head, example = example, ""
    meaning = " ".join(head.split())
    since = _SINCE.search(meaning)
    meaning = _SINCE.sub("", meaning)
    return Described(meaning, dedent(example.lstrip(" ")).strip("\n"), since[1] if since else FIRST)


@cache
def _written(module: str) -> Mapping[str, Mapping[str, Described]]:
    """The texts of all classes of a module, by class and field."""
    source = Path(sys.modules[module].__file__ or "").read_text(encoding="utf-8")
    tree = ast.parse(source)
    return {node.name: dict(_fields(node)) for node in tree.body if isinstance(node, ast.ClassDef)}


def _fields(node: ast.ClassDef) -> Iterator[tuple[str, Described]]:
    for field, below in zip(node.body, node.body[1:], strict=False):
        if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
            continue
        if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant):
            text = below.value.value
            if isinstance(text, str):
                yield field.target.id, parsed(text)
