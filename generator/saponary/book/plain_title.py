"""A title as plain text: no markup, its figures as text."""

from __future__ import annotations

from collections.abc import Mapping
from math import nan

from saponary.book import quotes
from saponary.book.figure import Figure, compare
from saponary.quantity.units import QuantityError


def plain_title(text: str, figures: Mapping[str, Figure]) -> str:
    """The text with each figure that it places or quotes as a reader sees it."""
    out: list[str] = []
    done = 0
    for quote in quotes.find(text, code=False):
        shown = shown_figure(quote, figures)
        if shown is not None:
            out += [text[done : quote.start], shown[0]]
            done = quote.end
    return "".join([*out, text[done:]]).replace("\\{", "{")


def unknown_figure(figure: Figure) -> str:
    """`? %`, in any language."""
    return f"? {figure.number().unit}"


def shown_figure(quote: quotes.Quote, figures: Mapping[str, Figure]) -> tuple[str, float] | None:
    """What is shown for a figure in a text, and its value in the unit shown; None for one that there is not.

    A placed figure is shown as recomputed, a quoted one as its maker wrote it, one that is not known
    as a question mark with its unit.
    """
    figure = figures.get(quote.name)
    if figure is None:
        return None
    if not figure.known:
        return unknown_figure(figure), nan
    if quote.value is None:
        text = figure.text()
        return text, figure.in_unit(text.partition(" ")[2])
    try:
        unit = compare(figure, quote.value).written.unit
    except QuantityError:
        return None
    return " ".join(quote.value.split()), figure.in_unit(unit)
