"""A swatch for each colour one may choose by, taken from a bar that has most of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from markupsafe import Markup

from saponary.book.published import Published
from saponary.views.choices import Choice, Option
from saponary.views.colour_family import family
from saponary.views.drawings import Drawings
from saponary.views.scene import portions_alone


def with_swatches(
    choices: Sequence[Choice], row: Sequence[Published], drawings: Drawings
) -> tuple[Choice, ...]:
    """The same choices, those of a colour with its swatch. Only bars that give one are drawn."""
    return tuple(
        replace(choice, options=tuple(_with(option, row, drawings) for option in choice.options))
        if choice.name == "colour"
        else choice
        for choice in choices
    )


def _with(option: Option, row: Sequence[Published], drawings: Drawings) -> Option:
    wanted = option.mark.removeprefix("colour-")
    found = [
        (portion.volume_share, recipe, portion.name)
        for recipe in row
        for portion in portions_alone(recipe)
        if family(portion.shade.cured) == wanted
    ]
    if not found:
        return option
    _, recipe, name = max(found, key=lambda one: one[0])
    legend = drawings.of(recipe).legend
    swatch = next((e.cured_swatch for e in legend if e.role == "portion" and e.name == name), "")
    return replace(option, swatch=Markup(swatch))
