"""label-fit: a label whose text does not fit on the book's paper."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.label.fit import Misfit, fit
from saponary.label.label_text import label_text
from saponary.label.lists import bar
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    """Labels are measured only where the book has paper for them and the recipe states a net weight."""
    grids = computed.settings.label_sheets
    if not grids or computed.model.label is None:
        return
    contents = bar(computed)
    for name, grid in grids.items():
        law = computed.settings.law_of(grid)
        said = label_text(computed, contents, computed.settings, law)
        made = fit(said, grid.width.millimetres, grid.height.millimetres, law) if said else None
        if isinstance(made, Misfit):
            yield computed.finding(
                RULE.name,
                ("label",),
                f"no labels of the grid {name!r} are made of this recipe: {made.why}",
                "use a grid of larger labels",
                "warning",
                key=True,
                about=name,
            )


RULE = Rule(
    "label-fit",
    "label",
    "A label's text must fit at a size that people can read: small letters of 1/16 or 1/32 inch in the "
    "United States, of 1.2 mm elsewhere. No sheet is made of labels on which it does not fit.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="grid",
)
