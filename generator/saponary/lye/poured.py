"""As poured: the superfat of the weights that were really put in."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.lye.alkali import Weights, demand, free, superfat
from saponary.lye.formula import Addition, Alkali, Liquid, Oil

SODIUM, POTASSIUM, WATER = "sodium-hydroxide", "potassium-hydroxide", "water"
ALKALIS = (SODIUM, POTASSIUM)
STOCKS = {SODIUM: "sodium-hydroxide-stock", POTASSIUM: "potassium-hydroxide-stock"}
"""By alkali, what its stock goes by where it was weighed as a solution."""


@dataclass(frozen=True)
class PutIn:
    """What was put in, in grams as they lay on the scale; `alkali` says how pure each alkali was."""

    oils: tuple[Oil, ...]
    liquids: tuple[Liquid, ...]
    additions: tuple[Addition, ...]
    alkali: Alkali
    weights: Weights


def as_poured(put: PutIn) -> float:
    """The superfat of these weights, a fraction; below zero free lye is left."""
    available = free(put.weights.moles(put.alkali), put.additions, put.liquids)
    return superfat(available, demand(put.oils))
