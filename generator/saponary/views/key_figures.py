"""The figures a maker looks for first, in one line: oils, alkali, water, strength, superfat, bars."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.published import Published
from saponary.messages.message import Value, message
from saponary.views.panel import Panel, span

_FIRST = ("oils", "sodium-hydroxide", "potassium-hydroxide", "water", "lye-strength", "superfat")


class KeyFigure(NamedTuple):
    """What, how much, and a word below; `name` is that of the catalogue, `value` the number
    unrounded; both are empty for a plain count."""

    label: Value
    text: Value
    note: Value
    name: str = ""
    value: str = ""


def key_figures(recipe: Published, panel: Panel) -> tuple[KeyFigure, ...]:
    """From the panel of all figures, so that the two cannot disagree."""
    entries = {entry.name: entry for entry in (*panel.weights, *panel.lye, *panel.superfat)}
    notes = {"oils": "", "lye-strength": "", "superfat": _likely(recipe, panel)}
    found = [
        KeyFigure(_label(e.name, e.label), e.text, notes.get(e.name, e.note), e.name, e.value)
        for name in _FIRST
        if (e := entries.get(name)) is not None
    ]
    return (*found, *_makes(recipe))


def _label(name: str, label: Value) -> Value:
    return message("recipe.superfat") if name == "superfat" else label


def _likely(recipe: Published, panel: Panel) -> Value:
    if panel.band is None:
        return ""
    likely = recipe.figures.bands.likely
    return message("recipe.likely", span=span(likely.low, likely.high))


def _makes(recipe: Published) -> Iterator[KeyFigure]:
    bars = recipe.resolved.bars
    if bars:
        each = message("recipe.each", weight=recipe.catalogue["bar"].number())
        yield KeyFigure(message("recipe.makes"), message("recipe.bars", count=bars), each)
