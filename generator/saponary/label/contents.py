"""Everything in a bar for a label: the engine's parts, scraps opened, and what was not weighed.

A scrap is opened into the make-up of the recipe it was cut from, which may hold scrap again.
Where that comes back to a recipe it began with, the make-up is the one the bar comes to in
the long run: each is worked out from the others, round after round, until nothing changes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Literal, NamedTuple

from saponary.book.cured import CuredWater
from saponary.label.bar_input import BarInput, Lookup
from saponary.lye.contents import Part, as_charged, as_found, merged
from saponary.pantry.model import Pantry

Way = Literal["charged", "found"]

_ROUNDS = 200
_STILL = 1e-13
"""A share that changes by less than this in a round has settled."""


class Contents(NamedTuple):
    """The parts of a bar in grams of the batch. `water` is None for a list as charged."""

    way: Way
    parts: tuple[Part, ...]
    unweighed: tuple[str, ...]
    water: CuredWater | None
    notes: tuple[str, ...]

    @property
    def grams(self) -> float:
        return sum(part.grams for part in self.parts)


def charged(made: BarInput, pantry: Pantry, lookup: Lookup) -> Contents:
    """What was put in, scraps as what was put into them."""
    return _contents(made, pantry, lookup, None)


def found(made: BarInput, pantry: Pantry, lookup: Lookup, water: CuredWater) -> Contents:
    """What is in the cured bar."""
    return _contents(made, pantry, lookup, water)


def opened(
    parts: Sequence[Part], pantry: Pantry, lookup: Lookup, water: CuredWater
) -> list[tuple[Part, ...]]:
    """Each of these additions: a scrap as the parts of its recipe, anything else as itself."""
    scraps = _Scraps(parts, pantry, lookup, water)
    return [merged(scraps.open([part])) for part in parts]


def _contents(made: BarInput, pantry: Pantry, lookup: Lookup, water: CuredWater | None) -> Contents:
    own = _parts(made, water)
    scraps = _Scraps(own, pantry, lookup, water)
    parts = merged(scraps.open(own))
    weighed = {part.id for part in parts}
    loose = dict.fromkeys((*made.unweighed, *scraps.unweighed))
    return Contents(
        "charged" if water is None else "found",
        parts,
        tuple(name for name in loose if name not in weighed),
        water,
        scraps.notes,
    )


def _parts(made: BarInput, water: CuredWater | None) -> tuple[Part, ...]:
    if water is None:
        return as_charged(made.formula, made.figures)
    return as_found(made.formula, made.figures, water.share)


class _Scraps:
    """The make-up, in shares of one, of every recipe whose scrap can be reached from some parts."""

    def __init__(
        self, parts: Sequence[Part], pantry: Pantry, lookup: Lookup, water: CuredWater | None
    ) -> None:
        self.pantry = pantry
        recipes: dict[str, tuple[Part, ...]] = {}
        unweighed: list[str] = []
        missing: list[str] = []
        waiting = self.slugs(parts)
        while waiting:
            slug = waiting.pop(0)
            if slug in recipes or slug in missing:
                continue
            made = lookup(slug)
            if made is None:
                missing.append(slug)
                continue
            recipes[slug] = _parts(made, water)
            unweighed += made.unweighed
            waiting += self.slugs(recipes[slug])
        self.unweighed = tuple(unweighed)
        self.notes = tuple(
            f"What is in the scrap of {slug!r} is not known: there is no such recipe to compute."
            for slug in missing
        )
        self.make_up = self.settled(recipes)

    def slug(self, part: Part) -> str | None:
        entry = self.pantry.additions.get(part.id) if part.kind == "addition" else None
        return entry.scrap_of if entry is not None else None

    def slugs(self, parts: Iterable[Part]) -> list[str]:
        return [slug for slug in map(self.slug, parts) if slug is not None]

    def settled(self, recipes: dict[str, tuple[Part, ...]]) -> dict[str, tuple[Part, ...]]:
        plain = {slug: [p for p in parts if self.slug(p) not in recipes] for slug, parts in recipes.items()}
        self.make_up = {slug: _in_shares(parts) for slug, parts in plain.items()}
        for _ in range(_ROUNDS):
            fresh = {slug: _in_shares(self.open(parts)) for slug, parts in recipes.items()}
            still = all(_alike(fresh[slug], self.make_up[slug]) for slug in recipes)
            self.make_up = fresh
            if still:
                break
        return self.make_up

    def open(self, parts: Iterable[Part]) -> list[Part]:
        """The parts, each scrap replaced by its share of its recipe's make-up."""
        whole: list[Part] = []
        for part in parts:
            inside = self.make_up.get(self.slug(part) or "")
            if inside:
                whole += (replace(each, grams=each.grams * part.grams) for each in inside)
            else:
                whole.append(part)
        return whole


def _in_shares(parts: Iterable[Part]) -> tuple[Part, ...]:
    one = merged(parts)
    whole = sum(part.grams for part in one)
    return tuple(replace(part, grams=part.grams / whole) for part in one) if whole > 0 else ()


def _alike(one: tuple[Part, ...], other: tuple[Part, ...]) -> bool:
    return len(one) == len(other) and all(
        abs(a.grams - b.grams) < _STILL for a, b in zip(one, other, strict=True)
    )
