"""Labels for bars: one recipe on one grid of a maker's paper, every label alike."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.label.fit import LEADING, LOWEST_PICTURE, Beside, Fitted, LabelText, Misfit, fit
from saponary.messages.message import Message
from saponary.quantity.dataclass import dataclass
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


@dataclass(frozen=True)
class At:
    """Where a label lies on its page, in mm."""

    left: str
    top: str


@dataclass(frozen=True)
class LabelsView:
    """Everything `press/labels.html` prints: sizes in mm and points, lines of text, and places."""

    width: str
    height: str
    padding: str
    size: str
    name_size: str
    net_size: str
    leading: str
    text: Fitted
    places: tuple[At, ...]
    names_lot: bool
    seen: Seen
    picture: str
    """How wide the drawing is, in mm."""
    head: str
    """How high the head is, in mm."""
    square: str
    """The side of the code, in mm."""
    minds: tuple[Message, ...] = ()
    """What the maker is to mind before a label goes on."""


def labels_view(
    said: LabelText, grid: LabelSheet, law: PlaceOfSale, seen: Seen = PLAIN
) -> LabelsView | Misfit:
    """The labels of a sheet, or why the text does not fit on them. What is seen beside the text is left out
    where the text would go under the smallest type for it: first the code, then the drawing, then the mark.
    """
    width, height = grid.width.millimetres, grid.height.millimetres
    drawing = min(_WIDEST, _PART * width)
    fitted = fit(said, width, height, law)
    if isinstance(fitted, Misfit):
        return fitted
    for each in _less_and_less(seen):
        beside = Beside(
            mark=each.mark_wide if each.mark else 0.0,
            picture=drawing if each.drawing else 0.0,
            square=_MODULE * each.code.across if each.code else 0.0,
        )
        tried = fit(said, width, height, law, beside)
        if isinstance(tried, Fitted):
            return _view(said, tried, grid, each, beside)
    return _view(said, fitted, grid, PLAIN, Beside())


def _less_and_less(seen: Seen) -> Iterator[Seen]:
    yield seen
    yield (seen := replace(seen, code=None))
    yield (seen := replace(seen, drawing=""))
    yield replace(seen, mark="")


def _view(said: LabelText, fitted: Fitted, grid: LabelSheet, seen: Seen, beside: Beside) -> LabelsView:
    return LabelsView(
        width=show(grid.width.millimetres, 2),
        height=show(grid.height.millimetres, 2),
        padding=show(fitted.padding, 2),
        size=show(fitted.size, 2),
        name_size=show(fitted.name_size, 2),
        net_size=show(fitted.net_size, 2),
        leading=show(LEADING, 2),
        text=fitted,
        places=tuple(At(show(left, 2), show(top, 2)) for left, top in grid.places()),
        names_lot=said.names_lot,
        seen=seen,
        picture=show(beside.picture, 2),
        head=show(max(fitted.head, LOWEST_PICTURE), 2),
        square=show(beside.square, 2),
    )
