"""Cautions by id: for lye on every page, and for what a recipe holds on its own.

Their words stand in the catalogue of messages.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple, get_args

from saponary.book.computed import Computed
from saponary.book.pour_uses import pour_uses
from saponary.book.published import Published
from saponary.messages.message import Message, Value, message
from saponary.pantry.model import Ingredient
from saponary.schema.ingredient import Allergen, Hazard
from saponary.schema.methods import METHODS

_NUMBER = re.compile(r"\+?[\d][\d ()/.-]*")
"""A telephone number with nothing around it."""


class Caution(NamedTuple):
    """A caution by its id; the catalogue has its words under `caution.<id>`."""

    id: str

    @property
    def head(self) -> Message:
        return message(f"caution.{self.id}.head")

    @property
    def text(self) -> Message:
        return message(f"caution.{self.id}.text")

    @property
    def for_buyers(self) -> bool:
        """Whether it stands on a label: what its holder must know, and cannot see."""
        return self.id in _FOR_BUYERS


LYE = tuple(
    Caution(name)
    for name in (
        "lye-burns",
        "cover-up",
        "alkali-into-water",
        "no-aluminium",
        "air",
        "children-and-animals",
        "on-skin",
        "in-an-eye",
        "swallowed",
    )
)
"""On every page and every sheet."""


def emergency(own: str) -> Value:
    """What to do in an emergency: a book's own number in the general sentence, or its own sentence."""
    own = own.strip()
    if own and _NUMBER.fullmatch(own):
        return message("caution.emergency-number", number=own)
    return own or message("caution.emergency")


_HAZARDS = get_args(Hazard)
"""Hazards of ingredients, in the order in which their cautions are told; a caution's id is the hazard's."""

_ALLERGENS = get_args(Allergen)
"""Food allergens, in the order in which their cautions are told; a caution's id is the allergen's."""

_OF_METHODS = tuple(dict.fromkeys(name for method in METHODS for name in method.cautions))
"""Cautions for whoever works by a method."""

KEYS_BY_ID = {
    "caution.": tuple(
        f"{name}.{part}"
        for name in (
            *(caution.id for caution in LYE),
            "potassium",
            "potassium-beside-sodium",
            *_OF_METHODS,
            *_HAZARDS,
            *_ALLERGENS,
        )
        for part in ("head", "text")
    )
}
"""Keys that are put together here: what they start with, and the ids that may follow."""

_FOR_BUYERS = frozenset({"scratch", *_ALLERGENS})


_WHILE_MAKING = frozenset({"heat", "carbon-monoxide", "dust"})
"""Gone once the soap is made: of no use to who buys a bar."""


_WITH_LYE = frozenset({"heat", "carbon-monoxide"})
"""What sugars do in lye, and not in soap that is melted."""


def for_recipe(computed: Computed | Published, *, making: bool = True) -> tuple[Caution, ...]:
    """The cautions that the method and the ingredients of this recipe call for, in a fixed order.

    Without `making`, those alone that hold for the bar.
    """
    gone = frozenset[str]() if making else _WHILE_MAKING
    if not computed.resolved.formula.weighs_lye:
        gone |= _WITH_LYE
    hazards = frozenset(_hazards(computed)) - gone
    allergens = frozenset(_allergens(computed))
    found = [name for name in _HAZARDS if name in hazards]
    found += [name for name in _ALLERGENS if name in allergens]
    alkali = computed.resolved.formula.alkali
    if making and alkali.potassium > 0:
        found.insert(0, "potassium-beside-sodium" if alkali.sodium > 0 else "potassium")
    if making:
        found = [*computed.model.by.cautions, *found]
    return tuple(Caution(name) for name in dict.fromkeys(found))


def for_buyers(computed: Computed | Published) -> tuple[Caution, ...]:
    """Those that a label has to tell, in the same order."""
    return tuple(caution for caution in for_recipe(computed) if caution.for_buyers)


def _added(computed: Computed | Published) -> Iterable[str]:
    """Ids of everything added: weighed in, dusted on, set in or sprinkled."""
    yield from (part.id for part in computed.resolved.formula.additions)
    yield from (use.what for use in pour_uses(computed))


def _used(computed: Computed | Published) -> Iterator[Ingredient]:
    """The pantry's entries of everything in the recipe but what an oil was infused with."""
    pantry, formula = computed.pantry, computed.resolved.formula
    found = [
        *(pantry.oils.get(oil.id) for oil in (*formula.oils, *formula.after_cook)),
        *(pantry.additions.get(name) for name in _added(computed)),
        *(pantry.liquid(part.id) for part in formula.liquids),
    ]
    yield from (entry for entry in found if entry is not None)


def _steeped(computed: Computed | Published) -> Iterator[Ingredient]:
    """What oils were infused with; it is strained off, so that its dust and its grains stay behind."""
    formula = computed.resolved.formula
    for oil in (*formula.oils, *formula.after_cook):
        found = computed.pantry.botanical(oil.infused_with) if oil.infused_with else None
        if found is not None:
            yield found


def _hazards(computed: Computed | Published) -> Iterator[str]:
    for entry in _used(computed):
        yield from entry.hazards
    for entry in _steeped(computed):
        yield from (hazard for hazard in entry.hazards if hazard in _GO_INTO_OIL)


_GO_INTO_OIL = frozenset({"sensitiser"})


def _allergens(computed: Computed | Published) -> Iterator[str]:
    for entry in (*_used(computed), *_steeped(computed)):
        yield from entry.allergens
