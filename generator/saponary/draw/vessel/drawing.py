"""A jar or a bottle with soap in it, as filled and as rested: glass, level and lid, our own drawing."""

from __future__ import annotations

from html import escape

from saponary.draw.pour.ink import ink_on, mixed
from saponary.draw.pour.pair import LegendEntry, PourDrawing
from saponary.draw.pour.scene import Scene, When
from saponary.draw.pour.svg import SHOWN_WIDTH, safe_id
from saponary.draw.pour.tiles import pattern
from saponary.draw.vessel.shape import HEIGHT, VESSELS, WIDTH, Glass
from saponary.messages.message import Message, message
from saponary.messages.speaker import Speaker
from saponary.quantity.rounding import show, to_decimals

_SOAP = 0
"""The number of its pattern: there is one soap in a vessel."""


def draw_vessel(scene: Scene, id_prefix: str, say: Speaker) -> PourDrawing:
    """Both states of one vessel, and the key to them."""
    words = say(_described(scene))
    name = scene.portions[0].name

    def face(when: When) -> str:
        return _face(scene, when, id_prefix, say(_title(scene, when)), words)

    def swatch(when: When) -> str:
        return _swatch(scene.portions[0].shade.at(when), safe_id(f"{id_prefix}-key-{when}"))

    key = LegendEntry("portion", name, 100, swatch("fresh"), swatch("cured"))
    return PourDrawing(face("fresh"), face("cured"), (key,), words)


KEYS_BY_ID = {"picture.vessel.": ("jar", "bottle"), "picture.filled.": ("fresh", "cured")}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _title(scene: Scene, when: When) -> Message:
    return message("picture.title", title=scene.title, when=message(f"picture.filled.{when}"))


def _described(scene: Scene) -> Message:
    full = int(to_decimals(100.0 * scene.level, 0))
    return message(f"picture.vessel.{scene.vessel}", full=full)


def _face(scene: Scene, when: When, id_prefix: str, title: str, description: str) -> str:
    key, glass = safe_id(f"{id_prefix}-{when}"), VESSELS[scene.vessel]
    shown = round(SHOWN_WIDTH * HEIGHT / WIDTH)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="pour-face" viewBox="0 0 {WIDTH} {HEIGHT}"'
        f' width="{SHOWN_WIDTH}" height="{shown}" role="img" aria-labelledby="{key}-title {key}-desc">'
        f'<title id="{key}-title">{escape(title)}</title><desc id="{key}-desc">{escape(description)}</desc>'
        f"{_filled(glass, scene.level, scene.portions[0].shade.at(when), key)}{_lid(glass)}</svg>"
    )


def _filled(glass: Glass, full: float, shade: str, key: str) -> str:
    """The glass, the soap in it to its level, and the light on both."""
    inside, level = glass.outline(glass.top), glass.level(full)
    soap, half = glass.outline(level), glass.half(level)
    middle, edge = WIDTH / 2, ink_on(shade, 1.5)
    light = middle - 0.72 * glass.half(glass.bottom - 200)
    return (
        f"<defs>{pattern(_SOAP, shade, f'{key}-tile')}</defs>"
        f'<path d="{inside}" fill="currentColor" fill-opacity=".05"/>'
        f'<path d="{soap}" fill="{shade}"/><path d="{soap}" fill="url(#{key}-tile)"/>'
        f'<ellipse cx="{show(middle, 0)}" cy="{show(level, 0)}" rx="{show(half, 0)}" ry="{show(0.055 * half, 0)}"'
        f' fill="{mixed(shade, "#ffffff", 0.35)}" stroke="{edge}" stroke-width="5"/>'
        f'<path d="M{show(light, 0)} {show(level + 60, 0)}V{show(glass.bottom - 110, 0)}" fill="none" stroke="#ffffff"'
        f' stroke-opacity=".5" stroke-width="22" stroke-linecap="round"/>'
        f'<path d="{inside}" fill="none" stroke="currentColor" stroke-opacity=".62" stroke-width="9"'
        f' stroke-linejoin="round"/>'
    )


def _lid(glass: Glass) -> str:
    lid = glass.lid
    gap = lid.width / lid.ribs
    ribs = "".join(
        f"M{show(lid.left + gap * (i + 0.5), 0)} {show(lid.top + 0.3 * lid.height, 0)}V{show(lid.top + 0.86 * lid.height, 0)}"
        for i in range(lid.ribs)
    )
    return (
        f'<rect x="{show(lid.left, 0)}" y="{show(lid.top, 0)}" width="{show(lid.width, 0)}" height="{show(lid.height, 0)}" rx="22"'
        f' fill="currentColor" fill-opacity=".16" stroke="currentColor" stroke-opacity=".62" stroke-width="9"/>'
        f'<path d="{ribs}" fill="none" stroke="currentColor" stroke-opacity=".4" stroke-width="6"'
        f' stroke-linecap="round"/>'
    )


def _swatch(shade: str, key: str) -> str:
    frame = '<rect x="5" y="5" width="170" height="110" rx="14" {}/>'
    outline = 'stroke="currentColor" stroke-opacity=".62" stroke-width="6"'
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" class="pour-swatch" viewBox="0 0 180 120"'
        f' width="36" height="24" aria-hidden="true" focusable="false"><defs>{pattern(_SOAP, shade, key)}</defs>'
        f"{frame.format(f'fill={chr(34)}{shade}{chr(34)}')}"
        f"{frame.format(f'fill={chr(34)}url(#{key}){chr(34)} {outline}')}</svg>"
    )
