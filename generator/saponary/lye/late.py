"""What goes in once the alkali is spent: oils that stay oils, the water that comes with them, and the pot before.

Superfat after the cook is what those oils would ask for, as a share of what all oils together ask for.
Superfat in all is the share of what all ask for that is left unmet.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from saponary.lye.alkali import demand, superfat
from saponary.lye.bar import Balance
from saponary.lye.formula import LATE, Addition, Formula, Liquid


class Late(NamedTuple):
    """Two superfats as fractions; grams of water that is stirred in late, and of what is in the pot before a cook."""

    superfat: float
    superfat_in_all: float
    water: float
    in_pot: float


def late(formula: Formula, available: float, asked: float, batter: float) -> Late:
    """`available` and `asked` are moles of the cook, `batter` the grams of all but the oils after it."""
    after = demand(formula.after_cook)
    every: tuple[Addition | Liquid, ...] = (*formula.liquids, *formula.stirred)
    parts = [part for part in every if part.stage in LATE]
    return Late(
        superfat=after / (asked + after) if after > 0 else 0.0,
        superfat_in_all=superfat(available, asked + after),
        water=sum(part.grams * part.water for part in parts),
        in_pot=batter - sum(part.grams for part in parts if part.stage != "melt"),
    )


def with_late_oils(found: Balance, formula: Formula) -> Balance:
    """A balance of the cooked oils with those beside them that are left as they are."""
    apart = sum(oil.grams * oil.unsaponifiable for oil in formula.after_cook)
    return replace(
        found,
        oil_left=found.oil_left + formula.after_cook_grams,
        unsaponifiable=found.unsaponifiable + apart,
    )
