"""The pour drawing for a page: one face at a time, or fresh and cured with their key."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.draw.pour.describe import describe, title
from saponary.draw.pour.layout import lay_out
from saponary.draw.pour.legend import LegendEntry, legend
from saponary.draw.pour.scene import Scene, When
from saponary.draw.pour.svg import drawing


@dataclass(frozen=True)
class PourDrawing:
    """Two faces of one pour and the key to both; the page sets them side by side or one above the other.

    Ids are unique within a page as long as every pour has its own prefix.
    """

    fresh_svg: str
    cured_svg: str
    legend: tuple[LegendEntry, ...]
    description: str


def draw(scene: Scene, *, when: When, id_prefix: str, plain: bool = False) -> str:
    """One face as SVG; `plain` leaves only flat areas of batter and embeds."""
    return drawing(scene, lay_out(scene), when, id_prefix, title(scene, when), describe(scene), plain)


def draw_pair(scene: Scene, id_prefix: str) -> PourDrawing:
    """The pour on the day and after the cure, from one layout."""
    layout, words = lay_out(scene), describe(scene)
    fresh = drawing(scene, layout, "fresh", id_prefix, title(scene, "fresh"), words, False)
    cured = drawing(scene, layout, "cured", id_prefix, title(scene, "cured"), words, False)
    return PourDrawing(fresh, cured, legend(scene, layout, id_prefix), words)
