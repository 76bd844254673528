"""Labels for bars: one recipe on one grid of a maker's paper, every label alike."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from saponary.label.fit import APART, BLANK, GAP, LEADING, RULE, RULED, Beside, Fitted, LabelText, Misfit
from saponary.label.fold import Folded, fold
from saponary.messages.message import Message
from saponary.quantity.rounding import show
from saponary.schema.label_sheets import LabelSheet
from saponary.schema.selling import PlaceOfSale
from saponary.views.paper.short_code import Picture

_WIDEST, _PART = 30.0, 0.3
"""A drawing is as wide as so many mm at the most, and as this part of the label."""
_MODULE = 0.35
"""The side of a module of a code, in mm: common practice for what a telephone reads, no source."""


@dataclass(frozen=True)
class Seen:
    """What may be seen on a label beside its text: the book's mark, the bar's drawing, the code of its lot's page.

    `mark` and `drawing` are addresses in the site, '' for none; `mark_wide` is the mark's width by its height.
    """

    mark: str = ""
    mark_wide: float = 1.0
    drawing: str = ""
    code: Picture | None = None


PLAIN = Seen()


class Side(NamedTuple):
    """One label as it is set: its text, type in points, and in mm how high the head is."""

    text: Fitted
    size: str
    name_size: str
    net_size: str
    head: str


class At(NamedTuple):
    """Where a label lies on its page, in mm, and whether it is the second one of a bar."""

    left: str
    top: str
    second: bool


@dataclass(frozen=True)
class LabelsView:
    """Everything `press/labels.html` prints: sizes in mm and points, lines of text, and places page by page."""

    width: str
    height: str
    padding: str
    leading: str
    first: Side
    second: Side | None
    """The list, where it has no room on the first."""
    pages: tuple[tuple[At, ...], ...]
    names_lot: bool
    seen: Seen
    picture: str
    """How wide the drawing is, in mm."""
    square: str
    beside_code: str
    """The side of the code in mm, and that with what is kept free beside it."""
    rule: str
    apart: str
    """How thick the rule is under the head, in mm, and how far from what stands above and below."""
    gap: str
    blank: str
    """How long the line is to write a lot on where it shares one, in mm."""
    minds: tuple[Message, ...] = ()
    """What the maker is to mind before a label goes on."""


def labels_view(
    said: LabelText, grid: LabelSheet, law: PlaceOfSale, seen: Seen = PLAIN
) -> LabelsView | Misfit:
    """The labels of a sheet, or why the text does not fit on them. What is seen beside the text is left out
    where the text would go under the smallest type for it, or need a second label: first the code, then the
    drawing, then the mark.
    """
    width, height = grid.measures
    drawing = min(_WIDEST, _PART * width)
    plain = fold(said, width, height, law)
    if isinstance(plain, Misfit):
        return plain
    for each in _less_and_less(seen):
        beside = Beside(
            mark=each.mark_wide if each.mark else 0.0,
            picture=drawing if each.drawing else 0.0,
            square=_MODULE * each.code.across if each.code else 0.0,
        )
        tried = fold(said, width, height, law, beside)
        if isinstance(tried, Folded) and tried.labels == plain.labels:
            return _view(said, tried, grid, each, beside)
    return _view(said, plain, grid, PLAIN, Beside())


def _less_and_less(seen: Seen) -> Iterator[Seen]:
    yield seen
    yield (seen := replace(seen, code=None))
    yield (seen := replace(seen, drawing=""))
    yield replace(seen, mark="")


def _view(said: LabelText, made: Folded, grid: LabelSheet, seen: Seen, beside: Beside) -> LabelsView:
    return LabelsView(
        width=show(grid.measures[0], 2),
        height=show(grid.measures[1], 2),
        padding=show(made.first.padding, 2),
        leading=show(LEADING, 2),
        first=_side(made.first),
        second=_side(made.second) if made.second is not None else None,
        pages=tuple(_pages(list(grid.places()), made.labels)),
        names_lot=said.names_lot,
        seen=seen,
        picture=show(beside.picture, 2),
        square=show(beside.square, 2),
        beside_code=show(beside.square + APART, 2),
        rule=show(RULE, 2),
        apart=show((RULED - RULE) / 2, 2),
        gap=show(GAP, 2),
        blank=show(BLANK, 2),
    )


def _side(made: Fitted) -> Side:
    return Side(made, show(made.size, 2), show(made.name_size, 2), show(made.net_size, 2), show(made.head, 2))


def _pages(places: list[tuple[float, float]], labels: int) -> Iterator[tuple[At, ...]]:
    """Both labels of a bar lie one after the other; where a page has an odd number of them, over two pages."""
    of_one = labels if labels > 1 and len(places) % labels else 1
    for page in range(of_one):
        yield tuple(
            At(show(left, 2), show(top, 2), (page * len(places) + place) % labels == 1)
            for place, (left, top) in enumerate(places)
        )
