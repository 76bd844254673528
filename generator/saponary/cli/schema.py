"""`saponary schema PART`."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable

from pydantic import BaseModel

from saponary.cli.command import CLEAN


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


PARTS: dict[str, Callable[[], type[BaseModel]]] = {
    "recipe": _recipe,
    "book": _book,
    "pantry": _pantry,
    "class": _class,
}
"""By the word asked for: where the model comes from. Only that one is built, for each takes its time."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("part", nargs="?", choices=tuple(PARTS), default="recipe")


def run(given: argparse.Namespace) -> int:
    model = PARTS[given.part]()
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **model.model_json_schema(by_alias=True),
    }
    print(json.dumps(schema, indent=1, ensure_ascii=False))
    return CLEAN
