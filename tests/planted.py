"""A book with a marker planted in every text that the schema lets a maker write, found by the schema itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from string import ascii_lowercase
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BeforeValidator, PlainValidator
from pydantic.fields import FieldInfo

from saponary.schema.fields import Part, kebab
from saponary.schema.seen import Seen, marks

HIDDEN = Seen()
COMMENT = "zqhush"
"""What stands beside every marker, commented out: no edition shows it."""


@dataclass(frozen=True)
class Planted:
    """A marker: where it stands, and the marks of every field on the way there."""

    text: str
    path: str
    on_the_way: tuple[Seen, ...]

    def allowed(self, sight: frozenset[str]) -> bool:
        return all(mark.within(sight) for mark in self.on_the_way)


class Planter:
    """Plants markers into plain data, as a YAML file holds it."""

    def __init__(self) -> None:
        self.planted: list[Planted] = []
        self.met: set[str] = set()
        """Fields that hold something, as `Model.field`."""
        self._words = ("zqx" + "".join(letters) for letters in product(ascii_lowercase, repeat=3))

    def plant(self, data: dict[str, Any], kind: type[Part], path: str, on_the_way: tuple[Seen, ...]) -> None:
        """A marker into every text field of a model, set or not, and of those inside it that are there."""
        for name, field in kind.model_fields.items():
            key, way = kebab(name), (*on_the_way, marks(kind).get(name, HIDDEN))
            where = f"{path}.{name}"
            if is_text(field):
                data[key] = self._marker(where, way)
            if key in data:
                self.met.add(f"{kind.__name__}.{name}")
                for inner, model in models_in(data[key], field.annotation):
                    self.plant(inner, model, where, way)

    def _marker(self, path: str, way: tuple[Seen, ...]) -> str:
        made = Planted(f"{next(self._words)} planted", path, way)
        self.planted.append(made)
        return f"{made.text} <!-- {COMMENT} -->"


def is_text(field: FieldInfo) -> bool:
    """Whether a maker may write any text there: no name, amount, date or word of a list."""
    return field.annotation in (Any, object) or _is_text(field.annotation, field.metadata)


def _is_text(kind: Any, metadata: list[Any]) -> bool:
    if get_origin(kind) is Annotated:
        kind, *more = get_args(kind)
        return _is_text(kind, [*metadata, *more])
    if get_origin(kind) in (Union, UnionType):
        return any(_is_text(one, metadata) for one in get_args(kind))
    read = any(isinstance(one, (BeforeValidator, PlainValidator)) for one in metadata)
    patterned = any(
        getattr(one, "pattern", None)
        or any(getattr(m, "pattern", None) for m in getattr(one, "metadata", ()))
        for one in metadata
    )
    return kind is str and not read and not patterned


def models_in(data: Any, kind: Any) -> Iterator[tuple[dict[str, Any], type[Part]]]:
    """The maps of plain data that are read as models."""
    if isinstance(kind, type) and issubclass(kind, Part):
        if isinstance(data, dict):
            yield data, kind
        return
    inside = get_args(kind)
    if get_origin(kind) is dict and isinstance(data, Mapping):
        for one in data.values():
            yield from models_in(one, inside[1])
    elif get_origin(kind) is list:
        for one in data if isinstance(data, list) else [data]:
            yield from models_in(one, inside[0])
    else:
        for one in inside:
            yield from models_in(data, one)
