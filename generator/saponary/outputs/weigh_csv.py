"""A recipe's weights, and a book's figures, as comma-separated text (RFC 4180), for a spreadsheet.

The headings and names of a weigh sheet are those that `begin --from` reads again.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from saponary.book.computed import Computed
from saponary.book.rows import name_of
from saponary.quantity.rounding import show
from saponary.views.names import anything

_NAMES = {
    "sodium-hydroxide": "Sodium hydroxide",
    "potassium-hydroxide": "Potassium hydroxide",
    "water": "Water",
}
_HEAD = ("ingredient", "grams", "% of oils", "id")
_HEAD_OF_SOAP = ("ingredient", "grams", "% of soap", "id")


def weigh_sheet(computed: Computed) -> str:
    """Everything that is weighed for a recipe, one a line: oils, alkali, water, liquids, additions.

    Of a rebatch, in which no lye is weighed, the shares are of the soap. Oils after the cook go by names of their
    own, so that no lye is worked out for them when the sheet is read.
    """
    formula, figures = computed.resolved.formula, computed.figures
    whole = formula.base_grams
    rows: list[tuple[str, float]] = [(oil.id, oil.grams) for oil in formula.oils]
    alkali = (
        ("sodium-hydroxide", figures.weights.sodium_hydroxide),
        ("potassium-hydroxide", figures.weights.potassium_hydroxide),
    )
    rows += [(name, grams) for name, grams in alkali if grams > 0]
    if formula.weighs_lye:
        rows.append(("water", figures.water.plain))
    rows += [(name_of(oil, computed.pantry), oil.grams) for oil in formula.after_cook]
    rows += [(part.id, part.grams) for part in formula.liquids]
    rows += [(part.id, part.grams) for part in formula.additions]
    lines = [
        (_NAMES.get(id) or anything(computed.pantry, id), show(grams, 2), show(100 * grams / whole, 2), id)
        for id, grams in rows
    ]
    superfat = [("superfat", "", show(100 * formula.superfat, 2) + " %", "")] if formula.weighs_lye else []
    head = _HEAD if formula.weighs_lye else _HEAD_OF_SOAP
    return _csv([(computed.model.title,), (), head, *lines, *superfat])


def figures_table(computed: Iterable[Computed]) -> str:
    """Every figure of every recipe: recipe, figure, value as shown, unit."""
    rows = [
        (one.slug, figure.name, *figure.text().partition(" ")[::2])
        for one in computed
        for figure in one.catalogue.values()
        if figure.known
    ]
    return _csv([("recipe", "figure", "value", "unit"), *rows])


def _csv(rows: Sequence[Sequence[str]]) -> str:
    """Every line has as many fields as the others, as RFC 4180 asks."""
    out = io.StringIO(newline="")
    width = max(map(len, rows))
    whole = ([*map(_safe, row), *[""] * (width - len(row))] for row in rows)
    csv.writer(out, lineterminator="\r\n").writerows(whole)
    return out.getvalue()


def _safe(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell[:1] in ("=", "+", "@", "\t", "\r") else cell
