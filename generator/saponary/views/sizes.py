"""Other sizes of a recipe: each weighed and checked as the batch itself is, none scaled by eye."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.book.computed import Computed
from saponary.lye.figures import weigh
from saponary.quantity.numbers import Scale


@dataclass(frozen=True)
class SizeView:
    name: str
    weights: tuple[str, ...]
    bars: str


@dataclass(frozen=True)
class Sizes:
    """A table: its columns of weights, and a row for each size, the batch as written first."""

    heads: tuple[str, ...]
    rows: tuple[SizeView, ...]


def sizes(computed: Computed, scale: Scale) -> Sizes | None:
    """None where no other size is offered."""
    built = computed.resolved
    if not built.sizes:
        return None
    alkali = built.formula.alkali
    both = (("Sodium hydroxide", alkali.sodium > 0), ("Potassium hydroxide", alkali.potassium > 0))
    there = ("Oils", *(name for name, used in both if used), "Plain water")
    rows = []
    named = [(built.mould_name or "as written", built.formula, built.bars)]
    for name, formula, bars in (*named, *((s.name, s.formula, s.bars) for s in built.sizes)):
        found = weigh(formula)
        weights = [found.oils]
        weights += [
            w
            for w, (_, used) in zip(
                (found.weights.sodium_hydroxide, found.weights.potassium_hydroxide), both, strict=True
            )
            if used
        ]
        weights.append(found.water.plain)
        rows.append(SizeView(name, tuple(scale.weigh(w).main for w in weights), str(bars) if bars else ""))
    return Sizes(there, tuple(rows))
