"""Scents in a bar: what they are made of, and the share of each allergen in the cured bar.

Shares are of the finished bar's mass, summed over every scent and blend in it. Only the
supplier's own sheet says what a scent holds. An essential oil that is itself on the list of
allergens counts as one too (from memory), whether there is a sheet or not.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from saponary.book.cured import CuredWater
from saponary.label.bar_input import Lookup
from saponary.label.contents import Contents, opened
from saponary.label.tables import Allergen, allergen
from saponary.lye.contents import Part
from saponary.pantry.model import Pantry
from saponary.quantity.totals import totals
from saponary.reading.tree import Path


class Dose(NamedTuple):
    """So much of an allergen in the batch, and its share of the cured bar."""

    allergen: Allergen
    grams: float
    share: float


class Scent(NamedTuple):
    """All scents of a bar together. `grams` is by id, blends and what they are made of alike;
    `without_sheet` are those of whose allergens nothing is known; `unknown` are words of a
    sheet that are no allergen's name.
    """

    cured_grams: float
    grams: Mapping[str, float]
    doses: tuple[Dose, ...]
    without_sheet: tuple[str, ...]
    unknown: tuple[tuple[str, str], ...]

    def share(self, name: str) -> float:
        """Share of one scent in the cured bar."""
        return self.grams[name] / self.cured_grams if self.cured_grams > 0 else 0.0


def is_scent(part: Part, pantry: Pantry) -> bool:
    """Whether this part is an addition that scents the bar."""
    entry = pantry.additions.get(part.id) if part.kind == "addition" else None
    return entry is not None and entry.kind == "fragrance"


def made_of(name: str, pantry: Pantry) -> dict[str, float]:
    """A scent and everything it is blended of, to any depth, each with its share of it.

    The pantry lets no blend come back to itself, so what is blended runs out.
    """
    shares: dict[str, float] = {name: 1.0}
    level = {name: 1.0}
    while level:
        below: dict[str, float] = {}
        for blend, share in level.items():
            papers = pantry.fragrances.get(blend)
            for part, of_it in papers.blend.items() if papers is not None else ():
                below[part] = below.get(part, 0.0) + share * of_it
        for part, share in below.items():
            shares[part] = shares.get(part, 0.0) + share
        level = below
    return shares


def amounts(parts: Iterable[Part], pantry: Pantry) -> dict[str, float]:
    """Grams of every scent among these parts, by id."""
    scents = (part for part in parts if is_scent(part, pantry))
    return totals(
        (name, part.grams * share) for part in scents for name, share in made_of(part.id, pantry).items()
    )


def uncertified(parts: Iterable[Part], pantry: Pantry) -> tuple[str, ...]:
    """Scents among these parts that no certificate speaks of. One for a blend as a whole speaks
    of all that is in it."""

    found: dict[str, None] = {}
    seen: set[str] = set()
    waiting = [part.id for part in parts if is_scent(part, pantry)]
    while waiting:
        name = waiting.pop(0)
        papers = pantry.fragrances.get(name)
        if name in seen or (papers is not None and papers.certificate is not None):
            continue
        seen.add(name)
        if papers is not None and papers.blend:
            waiting += papers.blend
        else:
            found[name] = None
    return tuple(found)


def first_uses(
    additions: Iterable[tuple[Path, str, str | None]], pantry: Pantry, lookup: Lookup, water: CuredWater
) -> dict[str, Path]:
    """Every scent that the additions of a recipe bring, in scraps and blends too, and where first."""
    listed = [(path, Part("addition", what, 1.0)) for path, what, _ in additions]
    uses: dict[str, Path] = {}
    for (path, _), inside in zip(
        listed, opened([part for _, part in listed], pantry, lookup, water), strict=True
    ):
        for name in amounts(inside, pantry):
            uses.setdefault(name, path)
    return uses


def scent(contents: Contents, pantry: Pantry) -> Scent:
    """The scents of a cured bar, from its contents as found."""
    grams = amounts(contents.parts, pantry)
    doses: dict[Allergen, float] = {}
    without: list[str] = []
    unknown: list[tuple[str, str]] = []
    for name, weight in grams.items():
        papers = pantry.fragrances.get(name)
        if papers is not None and papers.blend:
            continue
        if papers is None or papers.composition is None:
            without.append(name)
        sheet, strange = _sheet(name, pantry)
        unknown += ((name, word) for word in strange)
        for found, share in sheet.items():
            doses[found] = doses.get(found, 0.0) + weight * share
    whole = contents.grams
    listed = [Dose(found, weight, weight / whole) for found, weight in doses.items() if weight > 0]
    listed.sort(key=lambda dose: (-dose.share, dose.allergen.name))
    return Scent(whole, grams, tuple(listed), tuple(without), tuple(unknown))


def _sheet(name: str, pantry: Pantry) -> tuple[dict[Allergen, float], list[str]]:
    """Allergens of one unblended scent by share of it, and the words that name none."""
    papers = pantry.fragrances.get(name)
    shares: dict[Allergen, float] = {}
    strange: list[str] = []
    for word, share in ((papers.composition if papers is not None else None) or {}).items():
        found = allergen(word)
        if found is None:
            strange.append(word)
        else:
            shares[found] = shares.get(found, 0.0) + share
    entry = pantry.additions.get(name)
    own = allergen(entry.inci) if entry is not None and entry.inci else None
    if own is not None:
        shares.setdefault(own, 1.0)
    return shares, strange
