"""What a bed's stated depth says against what its volume says."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from saponary.draw.pour.plan import bed_shares
from saponary.draw.pour.scene import DrawnPortion
from saponary.schema.pour import PourStep

ALLOWED = 0.02


class DepthReading(NamedTuple):
    """A bed whose stated depth is not its share of the mould; `step` and `bed` count from 0."""

    step: int
    bed: int
    stated: float
    real: float


def pour_shares(steps: Sequence[PourStep], portions: Sequence[DrawnPortion]) -> list[DepthReading]:
    """The beds whose `depth` is more than two percentage points of the mould from their volume."""
    out: list[DepthReading] = []
    for (step, place), real in bed_shares(steps, portions).items():
        beds = steps[step].beds or []
        depth = beds[place].depth
        if depth is not None and abs(depth.fraction - real) > ALLOWED + 1e-9:
            out.append(DepthReading(step, place, depth.fraction, real))
    return out
