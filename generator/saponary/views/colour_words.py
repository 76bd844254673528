"""A colour in words, for whoever cannot see it or see it apart from others.

Lightness, strength and hue are read off CIE L*a*b* and named in plain English; the bounds
are this book's own reading.
"""

from __future__ import annotations

from math import atan2, degrees, hypot

from saponary.messages.message import Message, message
from saponary.pantry.lab import lab

_GREY, _GREYISH = 6.0, 12.0
"""Strengths below which a colour is a plain grey, or a grey with a tinge."""

_ANY = 999.0
_Bounds = tuple[tuple[float, float, str], ...]
"""Colours of a hue: lightness below, strength below, id. The first that fits is taken."""

_NEUTRAL: _Bounds = (
    (20, _ANY, "black"),
    (34, _ANY, "near-black"),
    (50, _ANY, "dark-grey"),
    (68, _ANY, "grey"),
    (84, _ANY, "light-grey"),
    (94, _ANY, "off-white"),
    (_ANY, _ANY, "white"),
)

_HUES: tuple[tuple[float, str, _Bounds], ...] = (
    (
        20,
        "pinkish",
        ((42, _ANY, "wine-red"), (58, _ANY, "rose"), (76, _ANY, "pink"), (_ANY, _ANY, "pale-pink")),
    ),
    (
        44,
        "reddish",
        (
            (34, _ANY, "dark-red-brown"),
            (46, 32, "red-brown"),
            (46, _ANY, "brick-red"),
            (54, 32, "brick"),
            (62, 32, "dusty-pink"),
            (62, _ANY, "red"),
            (78, _ANY, "salmon-pink"),
            (_ANY, _ANY, "pale-pink"),
        ),
    ),
    (
        62,
        "brownish",
        (
            (30, _ANY, "deep-brown"),
            (40, _ANY, "dark-red-brown"),
            (54, 36, "red-brown"),
            (56, _ANY, "rust"),
            (70, 30, "tan"),
            (70, _ANY, "orange"),
            (_ANY, _ANY, "apricot"),
        ),
    ),
    (
        74,
        "brownish",
        (
            (30, _ANY, "deep-brown"),
            (38, _ANY, "dark-brown"),
            (52, 38, "brown"),
            (62, 26, "tan"),
            (74, 36, "light-tan"),
            (76, _ANY, "orange"),
            (_ANY, _ANY, "apricot"),
        ),
    ),
    (
        86,
        "yellowish",
        (
            (38, _ANY, "dark-brown"),
            (52, _ANY, "olive-brown"),
            (64, 28, "tan"),
            (72, 28, "light-tan"),
            (72, _ANY, "ochre"),
            (80, 38, "straw"),
            (80, _ANY, "golden-ochre"),
            (_ANY, _ANY, "cream"),
        ),
    ),
    (
        103,
        "yellowish",
        (
            (44, _ANY, "dark-olive"),
            (57, _ANY, "olive"),
            (74, 36, "khaki"),
            (74, _ANY, "mustard"),
            (82, 34, "pale-straw"),
            (90, 22, "cream"),
            (_ANY, 30, "ivory"),
            (_ANY, _ANY, "yellow"),
        ),
    ),
    (
        124,
        "greenish",
        (
            (40, _ANY, "dark-olive-green"),
            (57, _ANY, "olive-green"),
            (70, 36, "sage"),
            (_ANY, 36, "pale-sage"),
            (_ANY, _ANY, "yellow-green"),
        ),
    ),
    (
        165,
        "greenish",
        (
            (38, _ANY, "dark-green"),
            (64, 60, "green"),
            (78, 60, "light-green"),
            (_ANY, 60, "pale-green"),
            (_ANY, _ANY, "bright-green"),
        ),
    ),
    (
        215,
        "sea-green",
        ((42, _ANY, "dark-sea-green"), (70, _ANY, "sea-green"), (_ANY, _ANY, "pale-sea-green")),
    ),
    (
        288,
        "bluish",
        (
            (30, _ANY, "dark-blue"),
            (50, 22, "slate-blue"),
            (50, _ANY, "blue"),
            (70, _ANY, "light-blue"),
            (_ANY, _ANY, "pale-blue"),
        ),
    ),
    (
        318,
        "violet",
        (
            (40, 60, "dark-violet"),
            (54, 60, "violet"),
            (70, 60, "light-violet"),
            (_ANY, 60, "lilac"),
            (_ANY, _ANY, "bright-blue"),
        ),
    ),
    (
        346,
        "purplish",
        ((42, _ANY, "dark-purple"), (58, _ANY, "purple"), (74, _ANY, "mauve"), (_ANY, _ANY, "pale-mauve")),
    ),
    (
        360,
        "pinkish",
        ((42, _ANY, "wine-red"), (58, _ANY, "rose"), (76, _ANY, "pink"), (_ANY, _ANY, "pale-pink")),
    ),
)
"""Hues by the end of their angle, with the tinge they give a grey, and their ids."""


_TAKE_TINGE = frozenset({"white", "off-white", "grey"})
"""Neutral colours that stand after their tinge: bluish grey, but dark grey, bluish."""


def in_words(colour: str) -> Message:
    """`dark red-brown`, `pale straw`, `light grey, bluish`; of a colour as `#rrggbb`."""
    lightness, a, b = lab(colour)
    strength = hypot(a, b)
    if strength < _GREY:
        return _named(_NEUTRAL, lightness, strength)
    angle = degrees(atan2(b, a)) % 360.0
    tinge, hues = next((tinge, hues) for end, tinge, hues in _HUES if angle <= end)
    if strength >= _GREYISH:
        return _named(hues, lightness, strength)
    grey, tinged = _named(_NEUTRAL, lightness, strength), message(f"colour.{tinge}")
    if _which(_NEUTRAL, lightness, strength) in _TAKE_TINGE:
        return message("colour.tinged", tinge=tinged, colour=grey)
    return message("colour.with-tinge", colour=grey, tinge=tinged)


def _named(bounds: _Bounds, lightness: float, strength: float) -> Message:
    return message(f"colour.{_which(bounds, lightness, strength)}")


def _which(bounds: _Bounds, lightness: float, strength: float) -> str:
    return next(name for light, strong, name in bounds if lightness < light and strength < strong)


KEYS_BY_ID = {
    "colour.": tuple(
        dict.fromkeys(
            [name for _, _, name in _NEUTRAL]
            + [tinge for _, tinge, _ in _HUES]
            + [name for _, _, bounds in _HUES for _, _, name in bounds]
        )
    )
}
"""Keys that are put together here: what they start with, and the ids that may follow."""
