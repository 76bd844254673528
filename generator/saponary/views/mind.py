"""Which stage of the work a recipe's cautions belong to, so that each stands where the hands meet it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from saponary.book.published import Published
from saponary.label.cautions import Caution
from saponary.views.stages.stage import Stage

_AT: Mapping[str, str] = {
    "dust": "before",
    "potassium": "lye",
    "potassium-beside-sodium": "lye",
    "sensitiser": "trace",
    "pregnancy-pets": "trace",
    "free-alkali": "split",
}
"""By the caution's id; heat comes with its liquid, and what holds for the bar at the end."""

_WITH_LIQUIDS = frozenset({"heat", "carbon-monoxide"})


def by_stage(
    recipe: Published, cautions: Sequence[Caution], stages: Sequence[Stage]
) -> dict[str, tuple[Caution, ...]]:
    """Every caution at one stage, by its id; at the first where the stage it belongs to is not there."""
    there = [stage.id for stage in stages]
    found: dict[str, tuple[Caution, ...]] = {}
    if not there:
        return found
    for caution in cautions:
        at = next((stage for stage in _wanted(caution, recipe) if stage in there), there[0])
        found[at] = (*found.get(at, ()), caution)
    return found


def _wanted(caution: Caution, recipe: Published) -> Iterator[str]:
    if caution.id in _WITH_LIQUIDS:
        yield from (liquid.stage for liquid in recipe.resolved.formula.liquids if liquid.portion is None)
        yield from (liquid.stage for liquid in recipe.resolved.formula.liquids)
        yield "trace"
    elif caution.id in _AT:
        yield _AT[caution.id]
    else:
        yield "cover"
