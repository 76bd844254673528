"""Reads the label tables that travel with the package: jurisdictions, allergens."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any, Literal

import yaml


@dataclass(frozen=True)
class Jurisdiction:
    """How an ingredient list is written where the bar is sold; fractions of one.

    `allergens_above` is None where no fragrance allergen need be named.
    """

    id: str
    name: str
    rule: str
    water: str
    fragrance: str
    names: Mapping[str, str]
    small: float
    small_inclusive: bool
    colours: Literal["number", "name"]
    allergens_above: float | None
    way: Literal["charged", "found"]
    notes: tuple[str, ...]
    source: Mapping[str, Mapping[str, str]] = field(repr=False)

    def is_small(self, share: float) -> bool:
        """Whether an ingredient of this share may stand in any order after the others."""
        return as_on_paper(share) < self.small or (self.small_inclusive and as_on_paper(share) == self.small)

    def wants_named(self, share: float) -> bool:
        """Whether an allergen of this share is above the threshold; the threshold itself is not."""
        return self.allergens_above is not None and as_on_paper(share) > self.allergens_above


@dataclass(frozen=True)
class Allergen:
    """A fragrance allergen by the name to print. `words` are all names it goes by on a sheet."""

    name: str
    words: tuple[str, ...]
    prohibited: bool


def as_on_paper(share: float) -> float:
    """The share without the noise of binary sums, so that 1 % on paper is 1 % here."""
    return float(f"{share:.12g}")


def folded(word: str) -> str:
    """A material's name as it is compared: small letters, one space for hyphens and spaces."""
    return " ".join(word.casefold().replace("-", " ").split())


def _read(name: str) -> Any:
    data = files("saponary.tables").joinpath(f"{name}.yaml").read_bytes()
    return yaml.load(data, Loader=yaml.CSafeLoader)


@cache
def jurisdictions() -> Mapping[str, Jurisdiction]:
    """Every jurisdiction, by id."""
    return {
        row["id"]: Jurisdiction(
            id=row["id"],
            name=row["name"],
            rule=row["rule"],
            water=row["water"],
            fragrance=row["fragrance"],
            names=row["names"],
            small=row["small"]["share"],
            small_inclusive=row["small"]["inclusive"],
            colours=row["colours"],
            allergens_above=row["allergens_above"],
            way=row["way"],
            notes=tuple(row["notes"]),
            source=row["source"],
        )
        for row in _read("jurisdictions")["jurisdictions"]
    }


@cache
def guidance() -> str:
    """The sentence that goes with every list."""
    return str(_read("jurisdictions")["guidance"])


@cache
def allergens() -> tuple[Allergen, ...]:
    """Every fragrance allergen of the table."""
    return tuple(
        Allergen(
            row["name"],
            (row["name"], *row.get("covers", ()), *row.get("also", ())),
            bool(row.get("prohibited", False)),
        )
        for row in _read("allergens")["allergens"]
    )


@cache
def allergens_by_word() -> Mapping[str, Allergen]:
    """Allergens by every name they go by, folded."""
    return {folded(word): allergen for allergen in allergens() for word in allergen.words}


def allergen(word: str) -> Allergen | None:
    """The allergen a sheet or an ingredient name means."""
    return allergens_by_word().get(folded(word))
