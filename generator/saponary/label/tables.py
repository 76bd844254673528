"""Reads the label tables that travel with the package: jurisdictions, allergens."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any, Literal, NamedTuple

import yaml

from saponary.assets.for_user import made
from saponary.quantity.rounding import steady

LabelFact = Literal["responsible", "contact", "origin", "durability", "function"]
"""What a label carries beside the list, and the settings of a book can state."""


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
    botanicals: Mapping[str, str]
    small: float
    small_inclusive: bool
    colours: Literal["number", "name"]
    by_name: Mapping[str, str]
    unlisted_colours: bool
    allergens_above: float | None
    allergens_before: int | None
    way: Literal["charged", "found"]
    notes: tuple[str, ...]
    label: tuple[LabelFact, ...]
    source: Mapping[str, Mapping[str, str]] = field(repr=False)

    def is_small(self, share: float) -> bool:
        """Whether an ingredient of this share may stand in any order after the others."""
        return as_on_paper(share) < self.small or (self.small_inclusive and as_on_paper(share) == self.small)

    def wants_named(self, share: float, since: int = 0) -> bool:
        """Whether an allergen of this share is above the threshold; the threshold itself is not.

        `since` is the year of the law that asked for its name, 0 for the earlier ones.
        """
        if self.allergens_above is None or (self.allergens_before and since >= self.allergens_before):
            return False
        return as_on_paper(share) > self.allergens_above

    def called(self, inci: str) -> str:
        """An ingredient's listed name as this place writes it: `Olive (Olea Europaea) Fruit Oil`."""
        if inci in self.names:
            return self.names[inci]
        for latin in sorted(self.botanicals, key=len, reverse=True):
            if inci == latin or inci.startswith(f"{latin} "):
                return f"{self.botanicals[latin]} ({latin}){inci.removeprefix(latin)}"
        return inci


class Allergen(NamedTuple):
    """A fragrance allergen by the name to print. `words` are all names it goes by on a sheet."""

    name: str
    words: tuple[str, ...]
    prohibited: bool
    since: int = 0


def as_on_paper(share: float) -> float:
    """The share without the noise of binary sums, so that 1 % on paper is 1 % here."""
    return steady(share)


def folded(word: str) -> str:
    """A material's name as it is compared: small letters, one space for hyphens and spaces."""
    return " ".join(word.casefold().replace("-", " ").split())


def read_table(name: str) -> Any:
    """A table of the package as plain data."""
    file = files("saponary.tables").joinpath(f"{name}.yaml")
    return made(("table", name), lambda: yaml.load(file.read_bytes(), Loader=yaml.CSafeLoader))


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
            botanicals=row["botanicals"],
            small=row["small"]["share"],
            small_inclusive=row["small"]["inclusive"],
            colours=row["colours"],
            by_name={str(number): name for number, name in row["by_name"].items()},
            unlisted_colours=row["unlisted_colours"],
            allergens_above=row["allergens_above"],
            allergens_before=row["allergens_before"],
            way=row["way"],
            notes=tuple(row["notes"]),
            label=tuple(row["label"]),
            source=row["source"],
        )
        for row in read_table("jurisdictions")["jurisdictions"]
    }


@cache
def guidance() -> str:
    """The sentence that goes with every list."""
    return str(read_table("jurisdictions")["guidance"])


@cache
def allergens() -> tuple[Allergen, ...]:
    """Every fragrance allergen of the table."""
    return tuple(
        Allergen(
            row["name"],
            (row["name"], *row.get("covers", ()), *row.get("also", ())),
            bool(row.get("prohibited", False)),
            int(row.get("since", 0)),
        )
        for row in read_table("allergens")["allergens"]
    )


@cache
def allergens_by_word() -> Mapping[str, Allergen]:
    """Allergens by every name they go by, folded."""
    return {folded(word): allergen for allergen in allergens() for word in allergen.words}


def allergen(word: str) -> Allergen | None:
    """The allergen a sheet or an ingredient name means."""
    return allergens_by_word().get(folded(word))
