"""One recipe on paper: what a student takes to the bench and writes on."""

from __future__ import annotations

from saponary.book.published import Published
from saponary.draw.pour import PourDrawing
from saponary.views import links
from saponary.views.prose_links import PaperLinks
from saponary.views.recipe import RecipeView, recipe_view
from saponary.views.site import SiteInput


def paper_recipe(
    recipe: Published, site: SiteInput, drawing: PourDrawing, linked: frozenset[str] = frozenset()
) -> RecipeView:
    """`linked` are the recipes that stand on the same paper, to which a text may lead."""
    folder = links.drawing(recipe.slug, "fresh").removesuffix("fresh.svg")
    return recipe_view(recipe, site, drawing, PaperLinks(linked), folder=folder, top=5)
