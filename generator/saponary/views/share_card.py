"""What the card of a recipe says: its title and one sentence, as the edition's own page has them."""

from __future__ import annotations

from saponary.book.published import Published
from saponary.views.at_class import at_class
from saponary.views.prose import Prose, first_sentence
from saponary.views.site import SiteInput


def card_words(recipe: Published, site: SiteInput) -> tuple[str, str]:
    """The title and the sentence; '' where the recipe has none. What students work out is left blank."""
    own = Prose(recipe.catalogue)
    lesson = at_class(recipe, site)
    prose = lesson.prose(own) if lesson is not None else own
    offer = recipe.model.shop if site.edition.reader == "customer" else None
    text = offer.text if offer is not None and offer.text else recipe.model.summary
    return prose.title(recipe.model.title), first_sentence(prose.plain(text))
