"""The cards of a site's recipes: each drawn once, however many editions and builds have it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from saponary.assets.step import Step
from saponary.assets.store import NoStore, Store
from saponary.draw.card import Card

CARD = Step(
    "card",
    ("book", "title", "sentence", "drawing", "photo"),
    ("assets/fonts.py", "draw/card.py", "draw/draw_card.py", "draw/pixels.py", "draw/tones.py"),
    ("pillow", "font-source-serif-pro"),
)


@dataclass(frozen=True)
class Cards:
    """Draws on demand, unless a store keeps the card. `photos` are files of the site by their addresses."""

    store: Store = field(default_factory=NoStore)
    photos: Mapping[str, bytes] = field(default_factory=dict[str, bytes])

    def of(self, book: str, title: str, sentence: str, drawing: str, photo: str) -> bytes:
        """A card as JPEG. `drawing` is SVG; `photo` an address, '' where there is none."""
        shown = self.photos.get(photo)

        def draw() -> bytes:
            # The library of pictures is imported where one is drawn.
            from saponary.draw.draw_card import draw_card

            return draw_card(Card(book, title, sentence, drawing, shown))

        return self.store.get(CARD.key(book, title, sentence, drawing, shown), draw)
