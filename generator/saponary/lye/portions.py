"""Portions: what of the batch goes into each, to the gram.

One pot split at trace: a portion takes its share of the common batter, and what the
others add stays with them. Separate pots: a portion takes its own oils and as much of one
lye solution as those oils and its own acids ask for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from saponary.lye import density
from saponary.lye.alkali import Weights, acid, demand, free, superfat
from saponary.lye.formula import Addition, Formula, Liquid, Oil, scaled
from saponary.lye.pots import oils_of
from saponary.lye.water import water_of


@dataclass(frozen=True)
class PortionFigures:
    """One portion in grams. `water` is all sources together; `lye_solution` is the alkali
    and plain water it takes of the one solution.
    """

    name: str
    share: float
    oils: tuple[Oil, ...]
    weights: Weights
    plain_water: float
    water: float
    liquids: tuple[Liquid, ...]
    additions: tuple[Addition, ...]
    after_cook: tuple[Oil, ...]
    batter: float
    batter_ml: float
    superfat: float
    """Of this portion alone: its part of the lye against its own oils and acids (fraction)."""

    @property
    def oils_grams(self) -> float:
        return sum(oil.grams for oil in self.oils)

    @property
    def lye_solution(self) -> float:
        return self.weights.total + self.plain_water


def split(formula: Formula, weights: Weights, plain_water: float) -> tuple[PortionFigures, ...]:
    """Every portion of the batch; the oils, alkali, water and batter sum to the batch."""
    return tuple(
        _portion(formula, weights, plain_water, name, share, _pot_part(formula, name, share), own)
        for name, share, own in _shares(formula)
    )


def _shares(formula: Formula) -> Sequence[tuple[str, float, tuple[Oil, ...]]]:
    return [(p.name, p.share, oils_of(p, formula)) for p in formula.portions]


def _pot_part(formula: Formula, name: str, share: float) -> float:
    """The part of the one lye solution that goes to this portion."""
    if not formula.separate_pots:
        return share
    met = 1.0 - formula.superfat
    extras: tuple[Addition | Liquid, ...] = (*formula.stirred, *formula.liquids)
    asked: dict[str, float] = {}
    for each, of_batch, oils in _shares(formula):
        own = [part for part in extras if part.portion == each]
        common = [part for part in extras if part.portion is None]
        asked[each] = met * demand(oils) + acid(own) + of_batch * acid(common)
    total = sum(asked.values())
    return asked[name] / total if total > 0 else share


def _portion(
    formula: Formula,
    weights: Weights,
    plain_water: float,
    name: str,
    share: float,
    pot: float,
    oils: tuple[Oil, ...],
) -> PortionFigures:
    jug = Weights(weights.sodium_hydroxide * pot, weights.potassium_hydroxide * pot)
    plain = plain_water * pot
    liquids = tuple(
        replace(part, grams=part.grams * (share if part.portion is None else 1.0))
        for part in formula.liquids
        if part.portion in (None, name)
    )
    additions = tuple(
        replace(part, grams=part.grams * (share if part.portion is None else 1.0))
        for part in formula.stirred
        if part.portion in (None, name)
    )
    late = scaled(formula.after_cook, share)
    batter = (
        sum(oil.grams for oil in (*oils, *late))
        + jug.total
        + plain
        + sum(part.grams for part in liquids)
        + sum(part.grams for part in additions)
    )
    millilitres = (
        density.oils_millilitres((*oils, *late))
        + density.lye_millilitres(jug, plain)
        + density.liquids_millilitres(liquids)
        + density.additions_millilitres(additions)
    )
    water = plain + water_of((*liquids, *additions))
    available = free(jug.moles(formula.alkali), additions, liquids)
    alone = superfat(available, demand(oils))
    return PortionFigures(
        name, share, oils, jug, plain, water, liquids, additions, late, batter, millilitres, alone
    )
