"""Hazard pictograms, drawn from the published geometry: a red square set on a point, a black
symbol on white (GHS, annex 1; CLP, annex V, from memory).
"""

from __future__ import annotations

from typing import NamedTuple

from saponary.messages.message import Message, message

_FRAME = '<path d="M50 3 97 50 50 97 3 50Z" fill="#fff" stroke="#e2001a" stroke-width="5" stroke-linejoin="miter"/>'

_INSIDE = "translate(6 7.5) scale(.88)"
"""The symbol stays clear of the frame."""

_CORROSION = (
    # two tubes, tipped, and what runs out of them
    '<g fill="#fff" stroke="#000" stroke-width="1.8" stroke-linejoin="round">'
    '<path d="M26.5 33.5 46.6 28.6 47.8 33.4 27.7 38.3A2.47 2.47 0 0 1 26.5 33.5Z"/>'
    '<path d="M73.5 33.5 53.4 28.6 52.2 33.4 72.3 38.3A2.47 2.47 0 0 0 73.5 33.5Z"/></g>'
    '<path d="M27.3 37.9 34.5 32.9 47.3 31.6 47.8 33.4ZM72.7 37.9 65.5 32.9 52.7 31.6 52.2 33.4Z"/>'
    '<path d="M46.2 36q1.7 3 0 4.6-1.7-1.6 0-4.6ZM43.3 42.5q1.7 3 0 4.6-1.7-1.6 0-4.6Z'
    "M46.5 49q1.7 3 0 4.6-1.7-1.6 0-4.6ZM53.8 36q1.7 3 0 4.6-1.7-1.6 0-4.6Z"
    'M56.7 42.5q1.7 3 0 4.6-1.7-1.6 0-4.6ZM53.5 49q1.7 3 0 4.6-1.7-1.6 0-4.6Z"/>'
    # a bar of metal, eaten into, with fumes above it
    '<path d="M22.5 58.5H37.5L38.6 61.4 41 60.6 42.3 63.4 44.6 61.5 45.6 58.5H48V67.5H22.5Z"/>'
    '<path d="M36 56.5q-2-2.5 0-4.5t0-4.5M40.5 56.5q-2-2.5 0-4.5" fill="none" stroke="#000" stroke-width="1.3"/>'
    # a hand, eaten into, with fumes above it
    '<path d="M77.5 58.8 66 58.2Q62.5 57 60.8 58.6L59.5 61.3 57.3 59.3 55.7 61.4 52 60.6Q50.4 61.2 51.6 62.8'
    'L59.6 65.6 52.8 66Q51 66.8 52.4 68.3L61.5 69.2 55.6 70.2Q54.3 71.4 56 72.3L66 71.6 77.5 67.6Z"/>'
    '<path d="M60 56.3q-2-2.5 0-4.5t0-4.5M64.5 55.5q-2-2.5 0-4.5" fill="none" stroke="#000" stroke-width="1.3"/>'
)
_EXCLAMATION = (
    '<path d="M50 22C45.6 22 43.6 25.4 44 30L46.6 54.5Q47 58 50 58T53.4 54.5L56 30C56.4 25.4 54.4 22 50 22Z"/>'
    '<circle cx="50" cy="69" r="6"/>'
)


class Pictogram(NamedTuple):
    """A pictogram by its code, with its drawing; the catalogue has its name and what it warns of."""

    code: str
    svg: str

    @property
    def name(self) -> Message:
        return message(f"pictogram.{self.code}.name")

    @property
    def alt(self) -> Message:
        return message(f"pictogram.{self.code}.alt")


def _drawn(code: str, symbol: str) -> Pictogram:
    return Pictogram(
        code,
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100" role="img">'
        f'{_FRAME}<g transform="{_INSIDE}">{symbol}</g></svg>',
    )


CORROSION = _drawn("GHS05", _CORROSION)
EXCLAMATION = _drawn("GHS07", _EXCLAMATION)

KEYS_BY_ID = {
    "pictogram.": tuple(
        f"{sign.code}.{what}" for sign in (CORROSION, EXCLAMATION) for what in ("name", "alt")
    )
}
"""Keys that are put together here: what they start with, and the ids that may follow."""
