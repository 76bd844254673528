"""What the steps of a pour dust, set in or sprinkle, and whether it was weighed for it."""

from __future__ import annotations

from typing import Literal, NamedTuple

from saponary.book.computed import Computed
from saponary.book.published import Published
from saponary.reading.tree import Path

How = Literal["line", "embeds", "sprinkle"]


class PourUse(NamedTuple):
    """One thing that a step of the pour uses.

    `weighed` is true where an addition of this id is weighed in at the pour. What is only
    stirred into the batter is weighed for that, and not for the pour. `path` is where the
    recipe names it.
    """

    what: str
    how: How
    weighed: bool
    path: Path


def pour_uses(computed: Computed | Published) -> tuple[PourUse, ...]:
    """What a recipe's pour uses, in the order of its steps; a thing used twice stands twice."""
    placed = {part.id for part in computed.resolved.formula.placed}
    found: list[PourUse] = []
    for index, step in enumerate(computed.model.pour):
        named: tuple[tuple[How, str, str | None], ...] = (
            ("line", "line", step.line.of if step.line else None),
            ("embeds", "embeds", step.embeds.of if step.embeds else None),
            ("sprinkle", "top", step.top.sprinkle if step.top else None),
        )
        for how, key, what in named:
            if what is not None:
                path: Path = ("pour", index, key, "sprinkle" if key == "top" else "of")
                found.append(PourUse(what, how, what in placed, path))
    return tuple(found)
