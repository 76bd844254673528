"""The face of one soap seen within the drawing of another: a piece cut from it, as it was when it was cut."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from saponary.draw.pour.layout import lay_out
from saponary.draw.pour.outlines import MOST_WITHIN, outlines
from saponary.draw.pour.scene import DrawnExtra, Scene, When

EDGE = 40
"""What is left out all round, in units of the drawing: its margin, and the rounded corners of the bar."""


@dataclass(frozen=True)
class Within:
    """A face made small: its patches in the order they are painted, in units of their own box."""

    scene: Scene
    width: int
    height: int
    patches: tuple[tuple[str, str], ...]

    def painted(self, when: When, box: tuple[int, int, int, int]) -> str:
        """The whole of it over a box, as large as covers it; what stands out is cut off."""
        x, y, width, height = box
        batter = {portion.name: portion.shade.at(when) for portion in self.scene.portions}
        paths = "".join(
            f'<path fill="{batter[name]}" fill-rule="evenodd" d="{path}"/>'
            for name, path in self.patches
            if path
        )
        return (
            f'<svg x="{x}" y="{y}" width="{width}" height="{height}" viewBox="{EDGE} {EDGE} {self.width - 2 * EDGE} {self.height - 2 * EDGE}"'
            f' preserveAspectRatio="xMidYMid slice">{paths}</svg>'
        )


def faces(extras: Iterable[DrawnExtra]) -> Mapping[str, Within]:
    """Of those that were cut from another soap, by their ids."""
    return {extra.id: _small(extra.face) for extra in extras if extra.face is not None}


def _small(scene: Scene) -> Within:
    drawn = outlines(scene, lay_out(scene), MOST_WITHIN)
    return Within(scene, drawn.width, drawn.height, drawn.patches)
