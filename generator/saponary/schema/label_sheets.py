"""Grids of labels on a sheet of paper, as a maker measures them on the paper at hand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, model_validator

from saponary.quantity.rounding import show
from saponary.schema.fields import Length, Part, problem
from saponary.schema.seen import Public
from saponary.schema.selling import PlaceOfSale

PAGES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height in mm (ISO 216; ANSI/ASME Y14.1)."""

_SLACK = 0.05
"""A twentieth of a millimetre: measures taken with a ruler."""


class LabelSheet(Part):
    """A grid: the size of one label, how many there are, and where the first one lies."""

    page: Public[Literal["a4", "letter"]] = "a4"
    """The paper: `a4` or `letter`."""
    width: Public[Length]
    """The width of one label."""
    height: Public[Length]
    """The height of one label."""
    columns: Public[Annotated[int, Field(ge=1, le=60)]]
    """How many labels stand side by side."""
    rows: Public[Annotated[int, Field(ge=1, le=60)]]
    """How many stand one below the other."""
    left: Public[Length | None] = None
    """From the left edge of the paper to the first label."""
    top: Public[Length | None] = None
    """From the top edge of the paper to the first label."""
    gap_x: Public[Length | None] = None
    """The gap between labels side by side."""
    gap_y: Public[Length | None] = None
    """The gap between labels one below the other."""
    law: Public[PlaceOfSale | None] = None
    """The place whose rules the list of ingredients follows: `us`, `eu` or `gb`. Left out, the first of `sold-in:`, or `eu`."""

    @model_validator(mode="after")
    def on_its_page(self) -> LabelSheet:
        for name, measure, there in zip(
            ("wide", "high"), (self.across, self.down), PAGES[self.page], strict=True
        ):
            reach = measure[0] + measure[1] + (measure[2] - 1) * (measure[1] + measure[3])
            if reach > there + _SLACK:
                raise problem(
                    f"this grid reaches to {show(reach, 1)} mm of a page {show(there, 1)} mm {name}",
                    "measure the labels and their gaps again, or count fewer of them",
                )
        return self

    @property
    def across(self) -> tuple[float, float, int, float]:
        """Margin, label, count and gap from left to right, in mm."""
        return _mm(self.left), self.width.millimetres, self.columns, _mm(self.gap_x)

    @property
    def down(self) -> tuple[float, float, int, float]:
        """The same from top to bottom."""
        return _mm(self.top), self.height.millimetres, self.rows, _mm(self.gap_y)

    @property
    def measures(self) -> tuple[float, float]:
        """Width and height of one label in mm."""
        return self.width.millimetres, self.height.millimetres

    def places(self) -> Iterator[tuple[float, float]]:
        """Left and top of every label in mm, row by row."""
        (left, width, columns, gap_x), (top, height, rows, gap_y) = self.across, self.down
        for row in range(rows):
            for column in range(columns):
                yield left + column * (width + gap_x), top + row * (height + gap_y)


def _mm(measure: Length | None) -> float:
    return measure.millimetres if measure is not None else 0.0
