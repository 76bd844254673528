"""The pour drawings of a site: each scene drawn once, however many pages and editions show it."""

from __future__ import annotations

from collections import OrderedDict

from saponary.draw.pour import PourDrawing, Scene, Shade, draw_pair
from saponary.messages.speaker import Speaker, speaker
from saponary.views.scene import blended_shade, scene
from saponary.views.site import RecipeInput, SiteInput

_KEPT = 256
_DRAWN: OrderedDict[tuple[str, str, str], PourDrawing] = OrderedDict()
"""Drawings by their scene in full, the recipe's slug and the language; the latest are kept, for a book
may have thousands."""


class Drawings:
    """Draws on demand."""

    def __init__(self, site: SiteInput) -> None:
        self._computed = {recipe.slug: recipe.computed for recipe in site.recipes}
        self._scenes: dict[str, Scene] = {}
        self._say = speaker(site.book.settings.language)

    def of(self, recipe: RecipeInput) -> PourDrawing:
        slug = recipe.slug
        if slug not in self._scenes:
            self._scenes[slug] = scene(recipe.computed, self._scrap)
        return _draw(self._scenes[slug], slug, self._say)

    def _scrap(self, slug: str) -> Shade | None:
        computed = self._computed.get(slug)
        return blended_shade(computed) if computed is not None else None


def _draw(what: Scene, slug: str, say: Speaker) -> PourDrawing:
    key = (repr(what), slug, say.language)
    if key not in _DRAWN:
        _DRAWN[key] = draw_pair(what, slug, say)
        while len(_DRAWN) > _KEPT:
            _DRAWN.popitem(last=False)
    _DRAWN.move_to_end(key)
    return _DRAWN[key]
