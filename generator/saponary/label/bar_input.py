"""What is needed of a recipe to say what is in its bar.

A recipe may hold the scrap of another, whose ingredients are then its own too, so whoever
lists ingredients is given a way to look recipes up.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from saponary.book.computed import Computed
from saponary.book.pour_uses import pour_uses
from saponary.lye.figures import Figures
from saponary.lye.formula import Formula


class BarInput(NamedTuple):
    """A formula with its figures. `unweighed` are the ids of what the pour dusts, sets in or
    sprinkles without a weight."""

    formula: Formula
    figures: Figures
    unweighed: tuple[str, ...] = ()


Lookup = Callable[[str], BarInput | None]
"""A recipe by its slug; None where there is none that can be computed."""


def bar_input(computed: Computed) -> BarInput:
    """A recipe that has been computed."""
    formula = computed.resolved.formula
    weighed = {part.id for part in formula.additions}
    unweighed = dict.fromkeys(use.what for use in pour_uses(computed) if use.what not in weighed)
    return BarInput(formula, computed.figures, tuple(unweighed))


def scraps_of(computed: Computed) -> Lookup:
    """Looks up the recipes whose scrap a recipe holds."""

    def find(slug: str) -> BarInput | None:
        other = computed.scraps.get(slug)
        return bar_input(other) if other is not None else None

    return find
