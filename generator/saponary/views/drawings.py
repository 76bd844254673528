"""The pour drawings of a site: each scene drawn once, however many pages, editions and builds show it."""

from __future__ import annotations

from pydantic import TypeAdapter, ValidationError

from saponary.assets.step import Step
from saponary.assets.store import NoStore, Store
from saponary.book.published import Published
from saponary.draw.pour import PourDrawing, Scene, Shade
from saponary.messages.speaker import speaker
from saponary.views.scene import blended_shade, face_alone, scene
from saponary.views.site import SiteInput

_KEPT_AS = TypeAdapter(PourDrawing)

DRAWING = Step(
    "drawing",
    ("scene", "slug", "language"),
    ("quantity", "assets", "reading", "schema", "messages", "tables/messages", "draw"),
    ("shapely", "numpy"),
)


_AT_HAND = 16
"""So many drawings stay at hand: the pages of a recipe, which all show its own, are made one after another."""


class Drawings:
    """Draws on demand, unless a store keeps the drawing."""

    def __init__(self, site: SiteInput, store: Store | None = None) -> None:
        self._computed = {recipe.slug: recipe for recipe in site.recipes}
        self._say = speaker(site.book.settings.language, site.book.settings.units)
        self._store = store or NoStore()
        self._drawn: dict[str, PourDrawing] = {}

    def of(self, recipe: Published) -> PourDrawing:
        """The drawing of one of the site's recipes. Its slug begins the ids within the drawing."""
        slug = recipe.slug
        if slug not in self._drawn:
            if len(self._drawn) >= _AT_HAND:
                del self._drawn[next(iter(self._drawn))]
            self._drawn[slug] = self._draw(scene(recipe, self._scrap, self._face), slug)
        return self._drawn[slug]

    def _scrap(self, slug: str) -> Shade | None:
        computed = self._computed.get(slug)
        return blended_shade(computed) if computed is not None else None

    def _face(self, slug: str) -> Scene | None:
        computed = self._computed.get(slug)
        return face_alone(computed) if computed is not None else None

    def _draw(self, what: Scene, slug: str) -> PourDrawing:
        at = DRAWING.key(what, slug, self._say.language)
        recalled = self._store.recall(at)
        kept = _unpacked(recalled) if recalled is not None else None
        if kept is None:
            # The libraries that draw are imported where something is drawn.
            from saponary.draw.pour.drawing import draw_pair

            kept = draw_pair(what, slug, self._say)
            self._store.keep(at, _KEPT_AS.dump_json(kept))
        return kept


def _unpacked(kept: bytes) -> PourDrawing | None:
    try:
        return _KEPT_AS.validate_json(kept)
    except ValidationError:
        return None
