"""The work order: every weight where the hands need it, stage by stage, with the maker's steps."""

from __future__ import annotations

from typing import NamedTuple

from saponary.views.stages import STAGES
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighSheet


class WorkOrder(NamedTuple):
    """The stages in order, and the units in which they are weighed: the book's, and the one beside it where the
    book asks for both."""

    unit: str
    beside: str
    stages: tuple[Stage, ...]


def work_order(bench: WeighSheet) -> WorkOrder:
    """The stages of the recipe's method. A stage that has nothing to say is left out."""
    every = (STAGES[name](bench) for name in bench.computed.model.by.stages)
    beside = bench.scale.beside if bench.computed.settings.both_units else ""
    return WorkOrder(bench.scale.unit, beside, tuple(s for s in every if not s.empty))
