"""The whole engine in one call: `weigh(formula)` gives every figure of a batch.

Figures are in grams, millilitres and fractions of one, unrounded.
"""

from __future__ import annotations

from dataclasses import dataclass

from saponary.lye import bar, density, portions, water
from saponary.lye.alkali import (
    Weights,
    acid,
    base,
    base_most,
    demand,
    free,
    shares_of,
    superfat,
    weights_for,
)
from saponary.lye.band import Bands, bands
from saponary.lye.constants import KOH, WATER
from saponary.lye.formula import Addition, Formula, Liquid
from saponary.lye.late import Late, late, with_late_oils
from saponary.lye.scale import superfat_as_weighed


@dataclass(frozen=True)
class Figures:
    """All that is known of a batch before it is poured.

    `superfat` is what the nominal weights give, free alkali of additions counted;
    `superfat_with_liquids_fat` counts the fat that liquids and additions bring (`liquids_fat`), for
    which no alkali is weighed, with the oils' demand. `late` is what goes in once the alkali is spent.
    `unknown` names what binds or brings alkali that nobody has stated: with any such, no superfat of these has
    been checked.
    """

    oils: float
    weights: Weights
    water: water.Sources
    lye_strength: float
    lye_strength_dissolved: float
    water_to_lye: float
    water_of_oils: float
    superfat: float
    superfat_as_weighed: float
    superfat_with_liquids_fat: float
    bands: Bands
    chemistry: bar.Chemistry
    balance: bar.Balance
    liquids: float
    liquids_fat: float
    additions: float
    placed_water: float
    late: Late
    acids_water: float
    batter: float
    batter_ml: float
    placed: float
    placed_ml: float
    portions: tuple[portions.PortionFigures, ...]
    unknown: tuple[str, ...] = ()

    @property
    def superfat_known(self) -> bool:
        """Whether all that binds or brings alkali is counted."""
        return not self.unknown

    @property
    def loaf(self) -> float:
        """Grams in the mould: batter, and what is set into or onto it."""
        return self.batter + self.placed

    @property
    def loaf_ml(self) -> float:
        return self.batter_ml + self.placed_ml

    @property
    def fresh_water(self) -> float:
        """Grams of water in the fresh bar: of the batter, of what is set in, and formed by acids of all kinds.
        What a cook boils off is not taken from it."""
        within = self.water.total + self.late.water + self.placed_water
        return within + self.balance.water_formed + self.acids_water


def weigh(formula: Formula) -> Figures:
    """Compute every figure of a formula. Pure; raises nothing on a valid formula."""
    asked = demand(formula.oils)
    acids = acid(formula.additions) + acid(formula.liquids)
    weights = weights_for((1.0 - formula.superfat) * asked + acids, formula.alkali)
    total_water = water.grams(formula.water, weights.total, formula.oils_grams)
    sources = water.sources(total_water, formula.liquids, formula.additions)
    available = free(weights.moles(formula.alkali), formula.additions, formula.liquids)
    most = available + base_most(formula.additions) - base(formula.additions)
    nominal = superfat(available, asked)
    extras: tuple[Addition | Liquid, ...] = (*formula.liquids, *formula.stirred)
    fat = sum(part.grams * part.fat for part in extras)
    fat_asks = sum(part.grams * part.fat * part.fat_value for part in extras) / 1000.0 / KOH
    to_oils = min(available, asked) * sum(each.share * each.molar for each in shares_of(weights, formula))
    liquids_grams = sum(part.grams for part in formula.liquids)
    stirred_grams = sum(part.grams for part in formula.stirred)
    batter = sum((formula.oils_grams, weights.total, sources.plain, liquids_grams, stirred_grams))
    volume = (
        density.oils_millilitres((*formula.oils, *formula.after_cook))
        + density.lye_millilitres(weights, sources.plain)
        + density.liquids_millilitres(formula.liquids)
        + density.additions_millilitres(formula.stirred)
    )
    return Figures(
        oils=formula.oils_grams,
        weights=weights,
        water=sources,
        lye_strength=water.strength(weights.total, total_water),
        lye_strength_dissolved=water.strength(weights.total, sources.dissolving),
        water_to_lye=water.as_convention("to-lye", total_water, weights.total, formula.oils_grams),
        water_of_oils=water.as_convention("of-oils", total_water, weights.total, formula.oils_grams),
        superfat=nominal,
        superfat_as_weighed=superfat_as_weighed(formula, weights),
        superfat_with_liquids_fat=superfat(available, asked + fat_asks),
        bands=bands(formula.oils, available, most),
        chemistry=bar.chemistry(formula.oils),
        balance=with_late_oils(bar.balance(formula.oils, nominal, to_oils), formula),
        liquids=liquids_grams,
        liquids_fat=fat,
        additions=sum(part.grams for part in formula.additions),
        placed_water=sum(part.grams * part.water for part in formula.placed),
        late=late(formula, available, asked, batter),
        acids_water=max(0.0, acids) * WATER,
        batter=batter + formula.after_cook_grams,
        batter_ml=volume,
        placed=sum(part.grams for part in formula.placed),
        placed_ml=density.additions_millilitres(formula.placed),
        portions=portions.split(formula, weights, sources.plain),
        unknown=tuple(dict.fromkeys(part.id for part in extras if not part.known and part.grams > 0)),
    )
