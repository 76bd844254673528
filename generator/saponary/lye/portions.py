"""Portions: what of the batch goes into each, to the gram.

One pot split at trace: a portion takes its share of the common batter, and what the
others add stays with them. Separate pots: a portion takes its own oils and as much of one
lye solution as those oils and its own acids ask for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from saponary.lye import alkali as lye
from saponary.lye import density
from saponary.lye.formula import Addition, Formula, Liquid, Oil


@dataclass(frozen=True)
class PortionFigures:
    """One portion in grams. `water` is all sources together; `lye_solution` is the alkali
    and plain water it takes of the one solution.
    """

    name: str
    share: float
    oils: tuple[Oil, ...]
    weights: lye.Weights
    plain_water: float
    water: float
    liquids: tuple[Liquid, ...]
    additions: tuple[Addition, ...]
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


def split(formula: Formula, weights: lye.Weights, plain_water: float) -> tuple[PortionFigures, ...]:
    """Every portion of the batch; the oils, alkali, water and batter sum to the batch."""
    return tuple(
        _portion(formula, weights, plain_water, name, share, _pot_part(formula, name, share), own)
        for name, share, own in _shares(formula)
    )


def _shares(formula: Formula) -> Sequence[tuple[str, float, tuple[Oil, ...]]]:
    def scaled(share: float) -> tuple[Oil, ...]:
        return tuple(replace(oil, grams=oil.grams * share) for oil in formula.oils)

    return [(p.name, p.share, p.oils if p.oils is not None else scaled(p.share)) for p in formula.portions]


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
        asked[each] = met * lye.demand(oils) + lye.acid(own) + of_batch * lye.acid(common)
    total = sum(asked.values())
    return asked[name] / total if total > 0 else share


def _portion(
    formula: Formula,
    weights: lye.Weights,
    plain_water: float,
    name: str,
    share: float,
    pot: float,
    oils: tuple[Oil, ...],
) -> PortionFigures:
    alkali = lye.Weights(weights.sodium_hydroxide * pot, weights.potassium_hydroxide * pot)
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
    batter = (
        sum(oil.grams for oil in oils)
        + alkali.total
        + plain
        + sum(part.grams for part in liquids)
        + sum(part.grams for part in additions)
    )
    millilitres = (
        density.oils_millilitres(oils)
        + density.lye_millilitres(alkali, plain)
        + density.liquids_millilitres(liquids)
        + density.additions_millilitres(additions)
    )
    water = plain + sum(part.grams * part.water for part in liquids)
    available = alkali.moles(formula.alkali) + lye.base(additions) - lye.acid(additions) - lye.acid(liquids)
    superfat = lye.superfat(available, lye.demand(oils))
    return PortionFigures(
        name, share, oils, alkali, plain, water, liquids, additions, batter, millilitres, superfat
    )
