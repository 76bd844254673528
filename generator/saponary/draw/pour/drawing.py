"""The pour drawing for a page: the pour on the day and after the cure, with the key to both."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.draw.pour.describe import described, title
from saponary.draw.pour.layout import lay_out
from saponary.draw.pour.legend import LegendEntry, legend
from saponary.draw.pour.outlines import outlines
from saponary.draw.pour.scene import Scene, When
from saponary.draw.pour.svg import drawing
from saponary.messages.speaker import Speaker


@dataclass(frozen=True)
class PourDrawing:
    """Two faces of one pour and the key to both; the page sets them side by side or one above the other.

    Ids are unique within a page as long as every pour has its own prefix.
    """

    fresh_svg: str
    cured_svg: str
    legend: tuple[LegendEntry, ...]
    description: str


def draw_pair(scene: Scene, id_prefix: str, say: Speaker) -> PourDrawing:
    """Both faces from one layout, with titles and descriptions in the words of `say`."""
    layout = lay_out(scene)
    lines = outlines(scene, layout)
    words = " ".join(say(sentence) for sentence in described(scene))

    def face(when: When) -> str:
        return drawing(scene, lines, when, id_prefix, say(title(scene, when)), words)

    return PourDrawing(face("fresh"), face("cured"), legend(scene, layout, id_prefix), words)
