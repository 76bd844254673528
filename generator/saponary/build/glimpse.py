"""What a first look at a recipe sees of it for the editions that are built right after: how each of them shows it.

A recipe is at hand then, and need not be read again for what the other pages of an edition ask of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from saponary.assets.once import Once
from saponary.book.computed import Computed
from saponary.book.facts import Facts
from saponary.book.proofed import Proofed
from saponary.book.published import Glance, is_shown, published
from saponary.schema.edition import Edition, asked_for, editions
from saponary.schema.settings import Settings

Glimpse = Mapping[str, Glance]
"""Of one recipe, by the names of editions that show it."""


class Asked(NamedTuple):
    """The editions that are to be built, by their names as they were asked for, and the day."""

    names: Sequence[str]
    on: date

    def looker(self, settings: Settings) -> Callable[[Computed, Facts], Glimpse]:
        """Looks at one recipe after another. A name that is no edition's is passed over: whoever builds tells of it."""
        known = editions(settings.editions)
        wanted = [known[name] for name in asked_for(self.names, settings.build, known) if name in known]
        once: dict[str, Once] = {edition.name: {} for edition in wanted}

        def look(computed: Computed, facts: Facts) -> Glimpse:
            one = Proofed(computed.slug, computed, facts, "")
            return {
                edition.name: published(one, edition, self.on, once[edition.name]).glance
                for edition in wanted
                if is_shown(one, edition)
            }

        return look


class Glimpses(NamedTuple):
    """What was seen of recipes, by slug, on a day."""

    on: date | None = None
    recipes: Mapping[str, Glimpse] = {}

    def of(self, edition: Edition, on: date) -> dict[str, Glance]:
        """What was seen for an edition on this day."""
        if on != self.on:
            return {}
        return {slug: one[edition.name] for slug, one in self.recipes.items() if edition.name in one}
