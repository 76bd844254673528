"""The pour drawings of a site: each recipe drawn once while its pages are made."""

from __future__ import annotations

from saponary.pages.scene import kneaded, scene
from saponary.pages.site import RecipeInput, SiteInput
from saponary.pictures.pour import PourDrawing, Shade, draw_pair

_KEPT = 4


class Drawings:
    """Draws on demand. Only the last few are kept, for a book may have thousands."""

    def __init__(self, site: SiteInput) -> None:
        self._cases = {recipe.slug: recipe.case for recipe in site.recipes}
        self._drawn: dict[str, PourDrawing] = {}

    def of(self, recipe: RecipeInput) -> PourDrawing:
        slug = recipe.slug
        if slug not in self._drawn:
            while len(self._drawn) >= _KEPT:
                self._drawn.pop(next(iter(self._drawn)))
            self._drawn[slug] = draw_pair(scene(recipe.case, self._scrap), slug)
        return self._drawn[slug]

    def _scrap(self, slug: str) -> Shade | None:
        case = self._cases.get(slug)
        return kneaded(case) if case is not None else None
