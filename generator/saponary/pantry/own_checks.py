"""What may be wrong with a liquid or an addition of the maker's own: values that cannot be."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.liquid_entry import LiquidEntry
from saponary.schema.oil_entry import OilEntry
from saponary.schema.pantry import PantryFile

W = TypeVar("W", LiquidEntry, AdditionEntry)


_TOGETHER = frozenset({"composition", "colours", "inci-soaps", "inci-salts"})
"""Groups of values that have one source."""


def sources(own: PantryFile, report: Reporter) -> None:
    """Each source stands under a key of its entry, that key's range, or a group of keys."""
    shelves: dict[str, Mapping[str, OilEntry | LiquidEntry | AdditionEntry]] = {
        "oils": own.oils, "liquids": own.liquids, "additions": own.additions, "colourants": own.colourants
    }  # fmt: skip
    for shelf, entries in shelves.items():
        for name, entry in entries.items():
            keys = {field.alias or key for key, field in type(entry).model_fields.items()} | _TOGETHER
            for given in entry.source or {}:
                if given.removesuffix("-range") not in keys:
                    message = f"there is no key {given!r} that could have a source"
                    report.add(
                        (shelf, name, "source", given), message, suggest(given, keys, "keys"), key=True
                    )


def liquid(name: str, entry: LiquidEntry, report: Reporter) -> bool:
    """Whether an entry, laid over what is below it, is enough of a liquid to be used."""
    if entry.water is None:
        if entry.like is None:
            report.add(
                ("liquids", name),
                f"the liquid {name!r} does not say how much of it is water",
                "add water: 90 %",
            )
        return False
    shares = (entry.water, entry.fat, entry.sugar)
    if sum(share.fraction for share in shares if share is not None) > 1.0 + 1e-9:
        report.add(
            ("liquids", name),
            "water, fat and sugar sum to more than the whole",
            "they are shares of the liquid's weight",
        )
    return True


def settled(name: str, own: W, made: W, below: W | None) -> W:
    """An entry that says whether its uptake of alkali is known.

    It is not where the maker alone knows the thing and states neither an acid nor a free alkali,
    and it is a liquid or of a kind that may bind alkali or bring it.
    """
    stated = made.uptake or made.acid or getattr(made, "free_alkali", None)
    if stated is not None or below is not None or own.like is not None:
        return made
    if isinstance(made, AdditionEntry) and made.kind not in _MAY_BIND:
        return made
    return made.model_copy(update={"uptake": "unknown"})


_MAY_BIND = frozenset({None, "acid", "salt", "chelator", "soap", "other"})
"""Kinds of additions that may bind alkali or bring it; None is an entry that states no kind."""


def addition(group: str, name: str, entry: AdditionEntry, report: Reporter) -> None:
    """An entry, laid over what is below it."""
    if entry.usual is not None and entry.usual[0].number > entry.usual[1].number:
        report.add(
            (group, name, "usual"), "the usual rate runs backwards", "give the lower rate, then the upper"
        )
    if group == "colourants" and entry.fresh is None and entry.cured is None:
        report.add(
            (group, name),
            f"the colourant {name!r} has no colour",
            'add fresh: "#a4503c" and cured: "#b98f86"',
        )
