"""The bar's chemistry: what the batter becomes, by mass, and what its fats are made of.

Mass balance per oil, for a share m of it that is met and demand n mol (of the whole oil): soap
takes m of the oil and its alkali and gives off m·n/3 mol of glycerol where the oil is a
triglyceride, or m·n mol of water where it is a free acid. Free acids are neutralised before
any ester is split, so the superfat is spread over all other oils alike, since no arithmetic
can say which of them stays behind. Unsaponifiable matter, and the fatty alcohol of waxes, go
with the soap and are named beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from saponary.lye.alkali import demand
from saponary.lye.constants import GLYCEROL, WATER
from saponary.lye.fatty_acids import groups
from saponary.lye.formula import Oil
from saponary.quantity.totals import totals

POLYUNSATURATED_GUARD = 0.15
"""Linoleic and linolenic together, of the fatty acids: above this rancid spots come sooner.
Common practice, no source."""


@dataclass(frozen=True)
class Balance:
    """Grams of what the oils and their alkali have become. The parts sum to what went in."""

    soap: float
    glycerol: float
    water_formed: float
    oil_left: float
    unsaponifiable: float
    """Of the soap and the oil left, what takes no alkali at all."""


class Met(NamedTuple):
    """The shares of the demand that are met: of free fatty acids, and of all other oils."""

    acids: float
    others: float

    def of(self, oil: Oil) -> float:
        return self.acids if oil.ester == "acid" else self.others


def met(oils: Sequence[Oil], superfat: float) -> Met:
    """What a superfat (fraction, one at the most) leaves of each kind: acids take their alkali first.

    A superfat below zero is counted as zero: what alkali is left over stays alkali.
    """
    asked = demand(oils)
    by_acids = demand(oil for oil in oils if oil.ester == "acid")
    there = (1.0 - max(0.0, superfat)) * asked
    if there <= by_acids:
        return Met(there / by_acids if by_acids > 0 else 0.0, 0.0)
    return Met(1.0, (there - by_acids) / (asked - by_acids))


def balance(oils: Sequence[Oil], superfat: float, pure_alkali_for_oils: float) -> Balance:
    """Mass balance for a superfat (fraction) and the grams of pure alkali the oils took."""
    part = met(oils, superfat)
    used = sum(part.of(o) * o.grams for o in oils)
    glycerol = part.others * demand(o for o in oils if o.ester == "triglyceride") / 3 * GLYCEROL
    water = part.acids * demand(o for o in oils if o.ester == "acid") * WATER
    soap = used + pure_alkali_for_oils - glycerol - water
    left = sum(o.grams for o in oils) - used
    return Balance(soap, glycerol, water, left, sum(o.grams * o.unsaponifiable for o in oils))


@dataclass(frozen=True)
class Chemistry:
    """The blend as a fat: mass fractions of its fatty acids, and its two values.

    `covered` is the share of the oils by mass whose composition is known; `iodine_value`
    is None where any oil's is not.
    """

    fatty_acids: dict[str, float]
    groups: dict[str, float]
    saponification_value: float
    iodine_value: float | None
    covered: float


def chemistry(oils: Sequence[Oil]) -> Chemistry:
    """Chemistry of a blend, weighted by mass of oil."""
    total = sum(oil.grams for oil in oils)
    given = [(oil, sum(oil.fatty_acids.values())) for oil in oils if sum(oil.fatty_acids.values()) > 0]
    known = sum(oil.grams for oil, _ in given)
    acids = totals(
        (key, oil.grams * part / whole) for oil, whole in given for key, part in oil.fatty_acids.items()
    )
    fractions = {key: grams / known for key, grams in sorted(acids.items(), key=_chain)} if known else {}
    iodine: float | None = 0.0
    for oil in oils:
        if oil.grams > 0:
            iodine = (
                None if iodine is None or oil.iodine_value is None else iodine + oil.grams * oil.iodine_value
            )
    return Chemistry(
        fractions,
        groups(fractions),
        sum(o.grams * o.saponification_value for o in oils) / total if total else 0.0,
        iodine / total if iodine is not None and total else None,
        known / total if total else 0.0,
    )


def _chain(item: tuple[str, float]) -> tuple[int, int, str]:
    carbons, _, rest = item[0][1:].partition(":")
    return int(carbons), int(rest.split("-")[0]), item[0]
