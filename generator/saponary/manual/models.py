"""The models behind the kinds of file, and the JSON Schemas made of them.

`python -m saponary.manual.models` writes those into `tables/schemas/`, where they are kept with the source. A test
holds them to the models.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

from pydantic import BaseModel

from saponary.manual.keys import kept


def _recipe() -> type[BaseModel]:
    from saponary.schema.recipe import Recipe

    return Recipe


def _book() -> type[BaseModel]:
    from saponary.schema.settings import Settings

    return Settings


def _pantry() -> type[BaseModel]:
    from saponary.schema.pantry import PantryFile

    return PantryFile


def _class() -> type[BaseModel]:
    from saponary.book.classes import ClassPlan

    return ClassPlan


def _page() -> type[BaseModel]:
    from saponary.book.own_pages import PagePlan

    return PagePlan


def _batches() -> type[BaseModel]:
    from saponary.book.records import BatchesFile

    return BatchesFile


def _claims() -> type[BaseModel]:
    from saponary.words.reader import OwnFile

    return OwnFile


MODELS: Mapping[str, Callable[[], type[BaseModel]]] = {
    "recipe": _recipe,
    "batches": _batches,
    "book": _book,
    "pantry": _pantry,
    "class": _class,
    "page": _page,
    "claims": _claims,
}
"""By the kind of file: where its model comes from. Only those asked for are built."""


def made(file: str) -> str:
    """The JSON Schema of a kind of file, as its model says."""
    schema = MODELS[file]().model_json_schema(by_alias=True)
    return f"{json.dumps(schema, indent=1, ensure_ascii=False)}\n"


def write() -> None:
    """Write every schema to where it is kept."""
    for file in MODELS:
        Path(str(kept(file))).write_text(made(file), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    write()
