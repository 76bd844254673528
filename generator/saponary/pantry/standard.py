"""Reads the standard tables that travel with the package, by the schema of the maker's own pantry."""

from __future__ import annotations

import hashlib
import pickle
import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, NamedTuple

import yaml

from saponary.assets.for_user import made
from saponary.pantry import make
from saponary.pantry.model import Addition, Liquid, Oil, Pantry, Term
from saponary.pantry.rows import Rows
from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.liquid_entry import LiquidEntry
from saponary.schema.oil_entry import OilEntry

_TABLES = ("oils", "liquids", "additions", "colourants", "glossary", "publications")


@cache
def standard() -> Pantry:
    """The standard pantry. Its version is a hash of the tables' bytes; a row is read when it is asked for."""
    kept = made(("pantry",), _kept)
    return Pantry(
        oils=Rows(lambda: kept.oils, _again),
        liquids=Rows(lambda: kept.liquids, _again),
        additions=Rows(lambda: kept.additions, _again),
        terms=kept.terms,
        publications=kept.publications,
        version=kept.version,
    )


class _Kept(NamedTuple):
    """The standard pantry as it is kept: each row by itself, as bytes."""

    oils: Mapping[str, bytes]
    liquids: Mapping[str, bytes]
    additions: Mapping[str, bytes]
    terms: tuple[Term, ...]
    publications: Mapping[str, str]
    version: str


def _kept() -> _Kept:
    found = _read_all()

    def packed(table: Mapping[str, object]) -> dict[str, bytes]:
        return {name: pickle.dumps(row, pickle.HIGHEST_PROTOCOL) for name, row in table.items()}

    tables = packed(found.oils), packed(found.liquids), packed(found.additions)
    return _Kept(*tables, found.terms, found.publications, found.version)


def _again(name: str, row: bytes) -> Any:
    return pickle.loads(row)


def _read_all() -> Pantry:
    folder = files("saponary.tables")
    tables = {name: folder.joinpath(f"{name}.yaml").read_bytes() for name in _TABLES}
    digest = hashlib.sha256()
    for name, data in tables.items():
        digest.update(name.encode() + b"\0" + data.replace(b"\r\n", b"\n"))
    return pantry_of(tables, digest.hexdigest()[:10])


def pantry_of(tables: Mapping[str, bytes], version: str) -> Pantry:
    """A pantry of tables given as bytes, by name. Raises what YAML and pydantic raise, on a faulty row."""
    return Pantry(
        oils=Rows(lambda: rows(tables["oils"]), _oil),
        liquids=Rows(lambda: rows(tables["liquids"]), _liquid),
        additions=Rows(lambda: {**rows(tables["additions"]), **rows(tables["colourants"])}, _addition),
        terms=tuple(Term(t["term"], t["meaning"]) for t in _read(tables["glossary"])["terms"]),
        publications={
            key: row["title"] for key, row in _read(tables["publications"])["publications"].items()
        },
        version=version,
    )


_ROW = re.compile(rb"^  ([a-z0-9-]+):\r?\n", re.MULTILINE)
"""An id, alone on its line and indented by two: how a table begins a row."""


def rows(table: bytes) -> dict[str, bytes]:
    """The YAML of each row, by id. A table is not parsed whole, for a recipe needs few of its rows."""
    begins = list(_ROW.finditer(table))
    ends = [*(begin.start() for begin in begins[1:]), len(table)]
    return {begin[1].decode(): table[begin.end() : end] for begin, end in zip(begins, ends, strict=True)}


def _read(text: bytes) -> Any:
    return yaml.load(text, Loader=yaml.CBaseLoader)


def _oil(name: str, row: bytes) -> Oil:
    made = make.oil(name, OilEntry.model_validate(_read(row)))
    if made is None:
        raise ValueError(f"the oil {name!r} of the table has no saponification value")
    return made


def _liquid(name: str, row: bytes) -> Liquid:
    return make.liquid(name, LiquidEntry.model_validate(_read(row)))


def _addition(name: str, row: bytes) -> Addition:
    return make.addition(name, AdditionEntry.model_validate(_read(row)))
