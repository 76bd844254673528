"""label-fit: a label whose text does not fit on the book's paper."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.label.fit import LabelText, Misfit
from saponary.label.fold import enough, fold
from saponary.label.label_text import label_text
from saponary.label.lists import bar
from saponary.reading.findings import Finding
from saponary.schema.label_sheets import LabelSheet
from saponary.schema.selling import PlaceOfSale
from saponary.schema.settings import Settings


def check(computed: Computed) -> Iterator[Finding]:
    """Labels are measured only where the book has paper for them and the recipe states a net weight."""
    grids = computed.settings.label_sheets
    if not grids or computed.model.label is None:
        return
    contents = bar(computed)
    for name, grid in grids.items():
        law = computed.settings.law_of(grid)
        said = label_text(computed, contents, computed.settings, law)
        if said is None:
            continue
        made = fold(said, *grid.measures, law)
        if isinstance(made, Misfit):
            yield computed.finding(
                RULE.name,
                ("label",),
                f"no labels of the grid {name!r} are made of this recipe: {made.why}",
                _larger(said, grid, law, computed.settings),
                "warning",
                key=True,
                about=name,
            )


def _larger(said: LabelText, grid: LabelSheet, law: PlaceOfSale, settings: Settings) -> str:
    """Another grid of the book for the same law that would do, or the least label that would."""
    for name, other in settings.label_sheets.items():
        if settings.law_of(other) == law and not isinstance(fold(said, *other.measures, law), Misfit):
            return f"use the grid {name!r}, whose labels hold it"
    least = enough(said, *grid.measures, law)
    if least is None:
        return "no label of a bar is large enough: shorten what stands beside the list"
    return f"labels of {least[0]} mm by {least[1]} mm would do, two for each bar"


RULE = Rule(
    "label-fit",
    "label",
    "A label's text must fit at a size that people can read: small letters of 1/16 inch in the United States, "
    "of 1.2 mm elsewhere. A list that has no room goes on a second label of the bar. No sheet is made of labels "
    "of which not even two hold it.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="grid",
)
