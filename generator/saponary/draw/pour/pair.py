"""What a pour drawing is to a page: two faces and their key. Nothing here needs the libraries that draw."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

Role = Literal["portion", "line", "embed", "sprinkle"]


@dataclass(frozen=True)
class LegendEntry:
    """One line of the key. Swatches are hidden from screen readers: the name stands beside them."""

    role: Role
    name: str
    share_percent: int | None  # of the batter's volume; None for what is no portion
    fresh_swatch: str
    cured_swatch: str


@dataclass(frozen=True)
class PourDrawing:
    """Two faces of one pour and the key to both; the page sets them side by side or one above the other.

    Ids are unique within a page as long as every pour has its own prefix.
    """

    fresh_svg: str
    cured_svg: str
    legend: tuple[LegendEntry, ...]
    description: str

    @property
    def size(self) -> tuple[int, int]:
        """Width and height at which a face is drawn, for the place that is kept for it."""
        found = re.search(r' width="(\d+)" height="(\d+)"', self.fresh_svg)
        assert found is not None, "a drawing states its size"
        return int(found[1]), int(found[2])
