"""`saponary schema PART`."""

from __future__ import annotations

import argparse
import json

from saponary.cli.command import CLEAN

PARTS = ("recipe", "batches", "book", "pantry", "class", "claims")
"""The kinds of file; the models behind them are imported where one is printed."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("part", nargs="?", choices=PARTS, default="recipe")


def run(given: argparse.Namespace) -> int:
    from saponary.manual.keys import json_schema

    schema = {"$schema": "https://json-schema.org/draft/2020-12/schema", **json_schema(given.part)}
    print(json.dumps(schema, indent=1, ensure_ascii=False))
    return CLEAN
