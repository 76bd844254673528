"""Reads the standard word lists that travel with the package."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from saponary.assets.for_user import made
from saponary.words.entries import Entry, Language, Source, WordList
from saponary.words.inflect import fold


@cache
def standard() -> WordList:
    """The standard lists of all languages."""
    return made(("claims",), _read)


def _read() -> WordList:
    data = files("saponary.tables").joinpath("claims.yaml").read_bytes()
    import yaml  # where it is not kept

    table: dict[str, Any] = yaml.load(data, Loader=yaml.CSafeLoader)
    languages = {code: _language(code, row, table) for code, row in table["languages"].items()}
    found = WordList(languages, {key: row["title"] for key, row in table["publications"].items()})
    assert found.digest  # it is kept with the list
    return found


def _language(code: str, row: Mapping[str, Any], table: Mapping[str, Any]) -> Language:
    return Language(
        code=code,
        fillers=tuple(fold(word) for word in row["fillers"]),
        negations=tuple(row["negations"]),
        not_negations=tuple(row["not-negations"]),
        abbreviations=frozenset(fold(word) for word in row["abbreviations"]),
        sets={name: tuple(forms) for name, forms in row["sets"].items()},
        entries=tuple(_entry(each, table["reasons"]) for each in row["claims"]),
        safety=tuple(row["safety"]),
        never=tuple(row["never"]),
        places=frozenset(fold(word) for word in row["places"]),
        titles=frozenset(fold(word) for word in row["titles"]),
    )


def _entry(row: Mapping[str, Any], reasons: Mapping[str, Mapping[str, str]]) -> Entry:
    why = row["why"]
    return Entry(
        id=row["id"],
        group=row["group"],
        forms=tuple(row["forms"]),
        needs=tuple(row.get("needs", ())),
        within=row.get("within", 6),
        unless=tuple(row.get("not", ())),
        near=tuple(row.get("not-near", ())),
        mention=row.get("mention", False),
        alone=row.get("alone", False),
        why=dict(reasons[why] if isinstance(why, str) else why),
        neutral=row.get("neutral", ""),
        source=Source(row["source"]["how"], row["source"].get("publication")),
    )
