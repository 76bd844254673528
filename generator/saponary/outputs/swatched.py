"""The swatches of the colours that one may choose by on a page: only bars that give one are drawn."""

from __future__ import annotations

from collections.abc import Sequence

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext
from saponary.views.choices import Choice
from saponary.views.swatches import Swatch, Tinted, most_of, swatches, with_swatches


def swatched(context: PageContext, choices: Sequence[Choice], parts: Sequence[Tinted]) -> tuple[Choice, ...]:
    """The same choices, with swatches taken from these parts of bars."""
    most = most_of(choices, parts)
    shown = sorted({one.slug for one in most.values()})
    recipes = [context.site.by_slug[slug] for slug in shown]
    named = {
        one.slug: (rests_on.SETTINGS, rests_on.recipe(one.slug), *rests_on.scraps(one)) for one in recipes
    }
    drawn = context.rows.all(
        "swatches", Swatch, recipes, named.__getitem__, lambda one: swatches(one, context.drawings)
    )
    return with_swatches(choices, most, drawn)
