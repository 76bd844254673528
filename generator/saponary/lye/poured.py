"""As poured: the superfat of the weights that were really put in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from saponary.lye.alkali import Weights, demand, free, superfat
from saponary.lye.formula import Addition, Formula, Liquid, Oil
from saponary.lye.water import water_of
from saponary.quantity.totals import totals

SODIUM, POTASSIUM, WATER = "sodium-hydroxide", "potassium-hydroxide", "water"


@dataclass(frozen=True)
class Poured:
    """What the recorded weights give; fractions. `assumed` names what was not recorded and is
    taken as the formula has it."""

    superfat: float
    lye_strength: float
    assumed: tuple[str, ...]


def names(formula: Formula) -> tuple[str, ...]:
    """Everything a batch record may give a weight for, in the order of hands."""
    alkali = [
        n
        for n, share in ((SODIUM, formula.alkali.sodium), (POTASSIUM, formula.alkali.potassium))
        if share > 0
    ]
    rest: tuple[Oil | Liquid | Addition, ...] = (*formula.oils, *formula.liquids, *formula.additions)
    return tuple(dict.fromkeys([WATER, *alkali, *(part.id for part in rest)]))


def as_poured(
    formula: Formula, plain_water: float, weights: Weights, recorded: Mapping[str, float]
) -> Poured:
    """The superfat of recorded weights (grams by name; see `names`).

    An oil that the formula has on several lines, or an addition in several portions, is
    recorded as one weight and shared out as the formula shares it.
    """

    def weighed(name: str, nominal: float, whole: float) -> float:
        return recorded[name] * nominal / whole if name in recorded and whole > 0 else nominal

    parts: tuple[Oil | Liquid | Addition, ...] = (*formula.oils, *formula.liquids, *formula.additions)
    whole = totals((part.id, part.grams) for part in parts)
    oils = [replace(o, grams=weighed(o.id, o.grams, whole[o.id])) for o in formula.oils]
    liquids = [replace(q, grams=weighed(q.id, q.grams, whole[q.id])) for q in formula.liquids]
    additions = [replace(a, grams=weighed(a.id, a.grams, whole[a.id])) for a in formula.additions]
    jug = Weights(
        recorded.get(SODIUM, weights.sodium_hydroxide), recorded.get(POTASSIUM, weights.potassium_hydroxide)
    )
    available = free(jug.moles(formula.alkali), additions, liquids)
    water = recorded.get(WATER, plain_water) + water_of((*liquids, *additions))
    return Poured(
        superfat(available, demand(oils)),
        jug.total / (jug.total + water) if jug.total > 0 else 0.0,
        tuple(name for name in names(formula) if name not in recorded),
    )
