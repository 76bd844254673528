"""Cautions by id: for lye on every page, and for what a recipe holds on its own.

Their words stand in the catalogue of messages.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from saponary.book.computed import Computed
from saponary.book.pour_uses import pour_uses
from saponary.messages.message import Message, Value, message


@dataclass(frozen=True)
class Caution:
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
    """The book's own emergency line, or a general one."""
    return own.strip() or message("caution.emergency")


_BY_HAZARD = {
    "heat": "heat",
    "carbon-monoxide": "carbon-monoxide",
    "dust": "dust",
    "scratch": "scratch",
    "sensitiser": "sensitiser",
    "pregnancy-pets": "pregnancy-pets",
    "free-alkali": "free-alkali",
    "nut": "tree-nut",
    "gluten": "gluten",
}
"""Cautions by hazard of an ingredient, in the order in which they are told."""

_ALLERGENS = ("tree-nut", "wheat", "sesame", "soy", "peanut", "milk")
"""Food allergens that a caution is told of; its id is the allergen's."""

_FOR_BUYERS = frozenset({"scratch", "gluten", *_ALLERGENS})
_MILKS = frozenset(
    {
        "cow-milk",
        "cow-milk-skimmed",
        "buttermilk",
        "goat-milk",
        "sheep-milk",
        "yoghurt",
        "cream",
        "whey",
        "skimmed-milk-powder",
    }
)
_SOYS = frozenset({"soy-drink"})


_WHILE_MAKING = frozenset({"heat", "carbon-monoxide", "dust"})
"""Gone once the soap is made: of no use to who buys a bar."""


def for_recipe(computed: Computed, *, making: bool = True) -> tuple[Caution, ...]:
    """The cautions that the ingredients of this recipe call for, in a fixed order.

    Without `making`, those alone that hold for the bar.
    """
    hazards = frozenset(_hazards(computed)) - (frozenset() if making else _WHILE_MAKING)
    allergens = frozenset(_allergens(computed))
    found = [caution for name, caution in _BY_HAZARD.items() if name in hazards]
    found += [name for name in _ALLERGENS if name in allergens]
    alkali = computed.resolved.formula.alkali
    if making and alkali.potassium > 0:
        found.insert(0, "potassium-beside-sodium" if alkali.sodium > 0 else "potassium")
    return tuple(Caution(name) for name in dict.fromkeys(found))


def for_buyers(computed: Computed) -> tuple[Caution, ...]:
    """Those that a label has to tell, in the same order."""
    return tuple(caution for caution in for_recipe(computed) if caution.for_buyers)


def _added(computed: Computed) -> Iterable[str]:
    """Ids of everything added: weighed in, dusted on, set in or strewn."""
    yield from (part.id for part in computed.resolved.formula.additions)
    yield from (use.what for use in pour_uses(computed))


def _hazards(computed: Computed) -> Iterator[str]:
    shelf = computed.pantry
    for name in _added(computed):
        if name in shelf.additions:
            yield from shelf.additions[name].hazards
    for part in computed.resolved.formula.liquids:
        liquid = shelf.liquid(part.id)
        if liquid is not None:
            yield from liquid.hazards
    for oil in computed.resolved.formula.oils:
        botanical = shelf.botanical(oil.infused_with) if oil.infused_with else None
        if botanical is not None:
            yield from (hazard for hazard in botanical.hazards if hazard in ("nut", "gluten", "sensitiser"))


def _allergens(computed: Computed) -> Iterator[str]:
    shelf = computed.pantry
    for oil in computed.resolved.formula.oils:
        entry = shelf.oils.get(oil.id)
        if entry is not None and entry.allergen:
            yield entry.allergen
    for name in (*_added(computed), *(part.id for part in computed.resolved.formula.liquids)):
        if name in _MILKS:
            yield "milk"
        if name in _SOYS:
            yield "soy"
