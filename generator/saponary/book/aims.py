"""What a maker wants of a batch beside its formula: bars of a weight, a soap of so much fatty matter.

The figures that follow from it are worked out by the engine from the same mass balance as all others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from saponary.book.cured import cured_water
from saponary.book.curing import cures
from saponary.book.records import BatchRecord
from saponary.lye.bar_weight import Kept, kept_by_balance, kept_by_bar
from saponary.lye.dilution import Dilution, acid_for, dilution, total_fatty_matter
from saponary.lye.figures import Figures
from saponary.lye.fingerprint import matches
from saponary.lye.formula import Formula
from saponary.pantry.model import Pantry
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.schema.batch import Batch
from saponary.schema.blend import Dilute
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings


class Acid(NamedTuple):
    """The acid that takes free alkali: its id, and the mol of hydroxide that a gram of it takes."""

    id: str
    takes: float


@dataclass(frozen=True)
class Aims:
    """`kept` is what a cured bar keeps of its weight at the pour, `net_weight` the grams that a label
    promises, `fatty_matter` the share of total fatty matter to thin to; None where nothing is asked."""

    kept: Kept | None = None
    net_weight: float | None = None
    fatty_matter: float | None = None
    acid: Acid | None = None


NOTHING = Aims()
"""Of a batch that is made to its formula alone."""


def aims(recipe: Recipe, pantry: Pantry, report: Reporter) -> Aims:
    """What the recipe asks for, as far as it can be known before its batches are looked at."""
    label, thin = recipe.label, recipe.dilute
    return Aims(
        net_weight=label.net_weight.grams if label is not None and label.net_weight is not None else None,
        fatty_matter=thin.total_fatty_matter.fraction if thin is not None else None,
        acid=_acid(thin, pantry, report) if thin is not None else None,
    )


def _acid(thin: Dilute, pantry: Pantry, report: Reporter) -> Acid | None:
    if thin.acid is None:
        return None
    entry = pantry.additions.get(thin.acid)
    sour = {name for name, one in pantry.additions.items() if one.acid > 0 and one.known}
    if entry is None or thin.acid not in sour:
        told = "is not in the pantry" if entry is None else "takes no known amount of alkali"
        report.add(("dilute", "acid"), f"{thin.acid!r} {told}", suggest(thin.acid, sour, "acids"))
        return None
    return Acid(entry.id, entry.acid)


def kept(figures: Figures, batches: Sequence[BatchRecord], fingerprint: str, settings: Settings) -> Kept:
    """What a cured bar keeps: the least of what weighed bars of this formula kept, else by the balance."""
    shares = list(_weighed(batches, fingerprint, settings.cure))
    if shares:
        return Kept(min(shares), len(shares))
    return kept_by_balance(figures, cured_water(settings).share)


def _weighed(batches: Iterable[BatchRecord], fingerprint: str, cured_on: int) -> Iterator[float]:
    for record in batches:
        if _of(record.batch, fingerprint):
            for bar in cures(record.batch):
                share = kept_by_bar(bar.weighings, bar.fit, cured_on)
                if share is not None:
                    yield share


def _of(batch: Batch, fingerprint: str) -> bool:
    return batch.formula is not None and matches(batch.formula, fingerprint)


MOST_EXCESS = 0.05
"""More than this share of alkali over the oils' demand is a slip, and no excess that is meant (judgement, no source)."""


def excess_is_taken(wanted: Aims, recipe: Recipe, figures: Figures) -> bool:
    """Whether alkali is left over, is little, is in a soap that is thinned, and has an acid named for it."""
    thins = not recipe.by.dries and wanted.fatty_matter is not None and wanted.acid is not None
    lowest = min(figures.superfat, figures.superfat_as_weighed)
    return thins and figures.superfat_known and -MOST_EXCESS <= lowest < 0


def thinned(formula: Formula, figures: Figures, wanted: Aims, paste: float | None = None) -> Dilution | None:
    """The paste thinned as the recipe asks, of all that was weighed in unless the pot was weighed (grams)."""
    if wanted.fatty_matter is None:
        return None
    there = paste if paste is not None else figures.batter
    return dilution(total_fatty_matter(formula, figures), there, wanted.fatty_matter)


def acid_grams(moles: float, wanted: Aims) -> float | None:
    """Grams of the recipe's acid for so many moles of free alkali; None where it names none."""
    return acid_for(moles, wanted.acid.takes) if wanted.acid is not None else None
