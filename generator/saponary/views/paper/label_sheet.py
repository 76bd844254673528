"""Labels for bars: one recipe on one grid of a maker's paper, every label alike."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.label.fit import LEADING, Fitted, LabelText, Misfit, fit
from saponary.messages.message import Message
from saponary.quantity.rounding import show
from saponary.schema.label_sheets import LabelSheet


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
    minds: tuple[Message, ...] = ()
    """What the maker is to mind before a label goes on."""


def labels_view(said: LabelText, grid: LabelSheet) -> LabelsView | Misfit:
    """The labels of a sheet, or why the text does not fit on them."""
    width, height = grid.width.millimetres, grid.height.millimetres
    fitted = fit(said, width, height, grid.law)
    if isinstance(fitted, Misfit):
        return fitted
    return LabelsView(
        width=show(width, 2),
        height=show(height, 2),
        padding=show(fitted.padding, 2),
        size=show(fitted.size, 2),
        name_size=show(fitted.name_size, 2),
        net_size=show(fitted.net_size, 2),
        leading=show(LEADING, 2),
        text=fitted,
        places=tuple(At(show(left, 2), show(top, 2)) for left, top in grid.places()),
    )
