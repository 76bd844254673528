"""A swatch for each colour one may choose by, taken from a bar that has most of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.published import Published
from saponary.views.choices import Choice
from saponary.views.colour_family import family
from saponary.views.drawings import Drawings
from saponary.views.scene import portions_alone


class Tinted(NamedTuple):
    """A part of a bar: its recipe, its name, the family of its cured colour, its share of the volume."""

    slug: str
    part: str
    family: str
    share: float


class Swatch(NamedTuple):
    """A part of a bar as its drawing's legend shows it, cured."""

    slug: str
    part: str
    picture: Markup


def tinted(recipe: Published) -> tuple[Tinted, ...]:
    """The parts of one recipe's bar."""
    parts = portions_alone(recipe)
    return tuple(
        Tinted(recipe.slug, part.name, family(part.shade.cured), part.volume_share) for part in parts
    )


def most_of(choices: Iterable[Choice], parts: Sequence[Tinted]) -> dict[str, Tinted]:
    """By the mark of a colour that may be chosen, the part that is most of its bar: of several, the first."""
    marks = [option.mark for choice in choices if choice.name == "colour" for option in choice.options]
    found = {mark: [one for one in parts if one.family == mark.removeprefix("colour-")] for mark in marks}
    return {mark: max(ones, key=lambda one: one.share) for mark, ones in found.items() if ones}


def swatches(recipe: Published, drawings: Drawings) -> Iterator[Swatch]:
    """Those of one recipe, which is drawn for them."""
    for entry in drawings.of(recipe).legend:
        if entry.role == "portion":
            yield Swatch(recipe.slug, entry.name, Markup(entry.cured_swatch))


def with_swatches(
    choices: Iterable[Choice], most: Mapping[str, Tinted], drawn: Iterable[Swatch]
) -> tuple[Choice, ...]:
    """The same choices, those of a colour with its swatch."""
    known: dict[tuple[str, str], Markup] = {}
    for one in drawn:
        known.setdefault((one.slug, one.part), one.picture)
    shown = {mark: known.get((one.slug, one.part), Markup("")) for mark, one in most.items()}
    return tuple(
        replace(choice, options=tuple(replace(o, swatch=shown.get(o.mark)) for o in choice.options))
        if choice.name == "colour"
        else choice
        for choice in choices
    )
