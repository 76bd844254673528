"""Everything a page or a press sheet needs to print what is in a bar, from one call."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.assets.once import Once
from saponary.book.computed import Computed
from saponary.book.cured import CuredWater, cured_water
from saponary.label import contents, scents
from saponary.label.bar_input import bar_input, scraps_of
from saponary.label.contents import Contents, Way
from saponary.label.ingredients import IngredientList, ingredient_list
from saponary.label.scents import Scent
from saponary.label.tables import Jurisdiction
from saponary.pantry.model import Pantry
from saponary.pantry.prices import shelf_unpriced


@dataclass(frozen=True)
class Bar:
    """A bar's contents told both ways, and its scents."""

    charged: Contents
    found: Contents
    scent: Scent
    water: CuredWater
    pantry: Pantry

    def ingredients(self, law: Jurisdiction, way: Way | None = None) -> IngredientList:
        """The list for a place of sale, told its own way unless another is asked for."""
        told = self.charged if (way or law.way) == "charged" else self.found
        return ingredient_list(told, self.pantry, law, self.scent)


def bar(computed: Computed, once: Once | None = None) -> Bar:
    """What is in the bar of a recipe that has been computed. `once` is kept for all recipes of the book."""
    pantry, made, lookup = shelf_unpriced(computed.pantry, once), bar_input(computed), scraps_of(computed)
    water = cured_water(computed.settings)
    found = contents.found(made, pantry, lookup, water)
    return Bar(contents.charged(made, pantry, lookup), found, scents.scent(found, pantry), water, pantry)
