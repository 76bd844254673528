"""What is in the batch, by mass, told in two ways that both sum to what went in.

*As charged* is what the scale saw. *As found* is what the mass balance of `bar.py` makes of
it, oil by oil: soap, glycerol, the salts of acids, and the oil that the superfat leaves over.
The superfat is spread over all oils alike, and water dries off from all of its sources alike,
since no arithmetic can say which goes first. Oils stirred in after the cook stay oils.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from saponary.lye.alkali import AlkaliShare, demand, free, free_alkali, shares_of
from saponary.lye.bar import met
from saponary.lye.constants import GLYCEROL, WATER
from saponary.lye.figures import Figures
from saponary.lye.formula import LATE, Addition, Formula, Liquid, Metal, Oil

Kind = Literal["oil", "soap", "alkali", "water", "glycerol", "liquid", "addition", "salt", "impurity"]

HYDROXIDE: dict[Metal, str] = {"sodium": "sodium-hydroxide", "potassium": "potassium-hydroxide"}


@dataclass(frozen=True)
class Part:
    """So many grams of one thing.

    `id` is that of the oil, liquid or addition it is or has come from; `metal` says which
    alkali a soap, a salt or an alkali is of; `infused_with` names what (some of) the oil had
    stood on. An `impurity` is what is no hydroxide in an alkali as weighed.
    """

    kind: Kind
    id: str
    grams: float
    metal: Metal | None = None
    infused_with: tuple[str, ...] = ()


def as_charged(formula: Formula, figures: Figures) -> tuple[Part, ...]:
    """What was weighed in. Plain water is below zero where the liquids bring too much."""
    weights = figures.weights
    return merged(
        [
            *(_whole(oil) for oil in (*formula.oils, *formula.after_cook)),
            Part("alkali", HYDROXIDE["sodium"], weights.sodium_hydroxide, "sodium"),
            Part("alkali", HYDROXIDE["potassium"], weights.potassium_hydroxide, "potassium"),
            Part("water", "water", figures.water.plain),
            *(Part("liquid", part.id, part.grams) for part in formula.liquids),
            *(Part("addition", part.id, part.grams) for part in formula.additions),
        ]
    )


def as_found(formula: Formula, figures: Figures, cured_water: float | None = None) -> tuple[Part, ...]:
    """What is there after saponification: at the pour, or in a bar that is so much water.

    `cured_water` is the share of the cured bar's mass that is water; a bar never holds more
    than it was poured with. Unsaponifiable matter, and the fatty alcohol of waxes, stay with
    the soap. An acid's dry matter becomes its salt (with the water of its crystals, if any)
    and what it was dissolved in is water. Free alkali that an addition brings is spent with the rest.
    """
    dry: list[Part] = []
    wet: list[Part] = []
    alkalis = shares_of(figures.weights, formula)
    shares = met(formula.oils, figures.superfat)
    for oil in formula.oils:
        _saponify(oil, shares.of(oil), alkalis, dry, wet)
    for kind, part in _extras(formula):
        if part.acid > 0 and part.stage not in LATE:
            _neutralise(part, alkalis, dry, wet)
        else:
            dry.append(Part(kind, part.id, part.grams * (1.0 - part.water) - free_alkali(part)))
            wet.append(Part(kind, part.id, part.grams * part.water))
    dry += map(_whole, formula.after_cook)
    dry += _unspent(formula, figures, alkalis)
    wet.append(Part("water", "water", figures.water.plain))
    left = _drying(sum(part.grams for part in dry), sum(part.grams for part in wet), cured_water)
    found = merged([*dry, *(replace(part, grams=part.grams * left) for part in wet)])
    return tuple(sorted(found, key=lambda part: _ORDER.index(part.kind)))


_ORDER: tuple[Kind, ...] = (
    "soap", "glycerol", "water", "oil", "salt", "alkali", "liquid", "addition", "impurity",
)  # fmt: skip


def merged(parts: Iterable[Part]) -> tuple[Part, ...]:
    """Parts of one kind, id and metal as one, in the order of their first; nothing of no weight."""
    found: dict[tuple[Kind, str, Metal | None], Part] = {}
    for part in parts:
        key = (part.kind, part.id, part.metal)
        old = found.get(key)
        if old is not None:
            soaked = tuple(dict.fromkeys((*old.infused_with, *part.infused_with)))
            part = replace(old, grams=old.grams + part.grams, infused_with=soaked)
        found[key] = part
    return tuple(part for part in found.values() if part.grams != 0.0)


def _whole(oil: Oil) -> Part:
    """An oil as it went in."""
    return Part("oil", oil.id, oil.grams, None, _soaked(oil))


def _soaked(oil: Oil) -> tuple[str, ...]:
    return (oil.infused_with,) if oil.infused_with and oil.grams > 0 else ()


def _extras(formula: Formula) -> Iterator[tuple[Kind, Liquid | Addition]]:
    for liquid in formula.liquids:
        yield "liquid", liquid
    for addition in formula.additions:
        yield "addition", addition


def _saponify(
    oil: Oil, share_met: float, alkalis: Sequence[AlkaliShare], dry: list[Part], wet: list[Part]
) -> None:
    moles = share_met * demand([oil])
    glycerol = moles / 3 * GLYCEROL if oil.ester == "triglyceride" else 0.0
    water = moles * WATER if oil.ester == "acid" else 0.0
    acids = share_met * oil.grams - glycerol - water
    for each in alkalis:
        grams = each.share * (acids + moles * each.molar)
        dry.append(Part("soap", oil.id, grams, each.metal, _soaked(oil)))
    dry.append(Part("glycerol", "glycerol", glycerol))
    dry.append(Part("oil", oil.id, oil.grams - share_met * oil.grams, None, _soaked(oil)))
    wet.append(Part("water", "water", water))


def _neutralise(
    part: Liquid | Addition, alkalis: Sequence[AlkaliShare], dry: list[Part], wet: list[Part]
) -> None:
    moles = part.grams * part.acid
    acid = part.grams * (1.0 - part.water) - moles * WATER - free_alkali(part)
    for each in alkalis:
        dry.append(Part("salt", part.id, each.share * (acid + moles * each.molar), each.metal))
    wet.append(Part("water", "water", part.grams * part.water + moles * WATER))


def _unspent(formula: Formula, figures: Figures, alkalis: Sequence[AlkaliShare]) -> Iterator[Part]:
    """Alkali that a superfat below zero leaves over, and what was no alkali in the first place."""
    asked = demand(formula.oils)
    there = free(figures.weights.moles(formula.alkali), formula.additions, formula.liquids)
    over = max(0.0, there - asked) if figures.superfat < 0 or asked <= 0 else 0.0
    weights, alkali = figures.weights, formula.alkali
    impure = {
        "sodium": weights.sodium_hydroxide * (1.0 - alkali.sodium_purity),
        "potassium": weights.potassium_hydroxide * (1.0 - alkali.potassium_purity),
    }
    for each in alkalis:
        yield Part("alkali", HYDROXIDE[each.metal], over * each.share * each.molar, each.metal)
        yield Part("impurity", HYDROXIDE[each.metal], impure[each.metal], each.metal)


def _drying(dry: float, wet: float, cured_water: float | None) -> float:
    """The share of the water poured that is still there."""
    if cured_water is None or wet <= 0 or cured_water >= 1.0:
        return 1.0
    return min(1.0, dry * cured_water / (1.0 - cured_water) / wet)
