"""The pour drawing for a page: the pour on the day and after the cure, with the key to both."""

from __future__ import annotations

from saponary.draw.pour.describe import described, title
from saponary.draw.pour.layout import lay_out
from saponary.draw.pour.legend import legend
from saponary.draw.pour.outlines import outlines
from saponary.draw.pour.pair import PourDrawing
from saponary.draw.pour.scene import Scene, When
from saponary.draw.pour.svg import drawing
from saponary.draw.pour.within import faces
from saponary.draw.vessel.drawing import draw_vessel
from saponary.messages.speaker import Speaker


def draw_pair(scene: Scene, id_prefix: str, say: Speaker) -> PourDrawing:
    """Both faces from one layout, with titles and descriptions in the words of `say`; or a jar or bottle."""
    if scene.vessel != "mould":
        return draw_vessel(scene, id_prefix, say)
    layout = lay_out(scene)
    lines = outlines(scene, layout)
    within = faces(scene.extras)
    words = " ".join(say(sentence) for sentence in described(scene))

    def face(when: When) -> str:
        return drawing(scene, lines, within, when, id_prefix, (say(title(scene, when)), words))

    return PourDrawing(face("fresh"), face("cured"), legend(scene, layout, within, id_prefix), words)
