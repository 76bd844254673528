"""A bed: one portion poured level or sloping over all that is in the mould."""

from __future__ import annotations

from saponary.draw.pour.laying import Ground, Patch, patch


def bed(ground: Ground) -> list[Patch]:
    """The zone is solved by its surfaces, so the bed has only to fill it."""
    return [patch(ground.step, ground.loads[0].name, ground.above)] if ground.loads else []
