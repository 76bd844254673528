"""The cards of a site's recipes as pictures: each drawn once, however many editions and builds have it."""

from __future__ import annotations

from saponary.assets.step import Step
from saponary.draw.card import Card

CARD = Step(
    "card",
    ("card",),
    ("assets/fonts.py", "draw/card.py", "draw/draw_card.py", "draw/pixels.py", "draw/tones.py"),
    ("pillow", "font-source-serif-pro"),
)


def as_jpeg(card: Card) -> bytes:
    """A card as JPEG."""
    # The library of pictures is imported where one is drawn.
    from saponary.draw.draw_card import draw_card

    return draw_card(card)
