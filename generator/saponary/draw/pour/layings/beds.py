"""A bed: one portion poured level or sloping over all that is in the mould."""

from __future__ import annotations

from saponary.draw.pour.laying import Filling, Patch, patch


def bed(filling: Filling) -> list[Patch]:
    """The zone is solved by its surfaces, so the bed has only to fill it."""
    return [patch(filling.step, filling.loads[0].name, filling.above)] if filling.loads else []
