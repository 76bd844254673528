"""Reads the standard tables that travel with the package, by the schema of the maker's own pantry."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

from saponary.pantry import make
from saponary.pantry.model import Addition, Liquid, Oil, Pantry, Term
from saponary.pantry.rows import Rows
from saponary.schema.ingredient import AdditionEntry, LiquidEntry, OilEntry

_TABLES = ("oils", "liquids", "additions", "colourants", "glossary", "publications")


@cache
def standard() -> Pantry:
    """The standard pantry. Its version is a hash of the tables' bytes; a row is read when it is asked for."""
    folder = files("saponary.tables")
    tables = {name: folder.joinpath(f"{name}.yaml").read_bytes() for name in _TABLES}
    digest = hashlib.sha256()
    for name, data in tables.items():
        digest.update(name.encode() + b"\0" + data.replace(b"\r\n", b"\n"))
    return pantry_of(tables, digest.hexdigest()[:10])


def pantry_of(tables: Mapping[str, bytes], version: str) -> Pantry:
    """A pantry of tables given as bytes, by name. Raises what YAML and pydantic raise, on a faulty row."""

    def additions() -> Mapping[str, object]:
        return {**_rows(tables, "additions"), **_rows(tables, "colourants")}

    return Pantry(
        oils=Rows(lambda: _rows(tables, "oils"), _oil),
        liquids=Rows(lambda: _rows(tables, "liquids"), _liquid),
        additions=Rows(additions, _addition),
        terms=tuple(Term(t["term"], t["meaning"]) for t in _read(tables, "glossary")["terms"]),
        publications={
            key: row["title"] for key, row in _read(tables, "publications")["publications"].items()
        },
        version=version,
    )


def _read(tables: Mapping[str, bytes], name: str) -> Any:
    return yaml.load(tables[name], Loader=yaml.CBaseLoader)


def _rows(tables: Mapping[str, bytes], name: str) -> Mapping[str, object]:
    rows: Mapping[str, object] = _read(tables, name)[name]
    return rows


def _oil(name: str, row: object) -> Oil:
    made = make.oil(name, OilEntry.model_validate(row))
    if made is None:
        raise ValueError(f"the oil {name!r} of the table has no saponification value")
    return made


def _liquid(name: str, row: object) -> Liquid:
    return make.liquid(name, LiquidEntry.model_validate(row))


def _addition(name: str, row: object) -> Addition:
    return make.addition(name, AdditionEntry.model_validate(row))
