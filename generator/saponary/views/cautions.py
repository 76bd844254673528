"""Cautions in plain words: for lye on every page, and for what a recipe holds on its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from saponary.book.computed import Computed


@dataclass(frozen=True)
class Caution:
    head: str
    text: str


LYE = (
    Caution("Lye burns.", "Sodium and potassium hydroxide, their solutions and fresh batter eat into skin and blind eyes. Treat batter and uncut soap as caustic for two days."),
    Caution("Cover up.", "Tight goggles, not spectacles; long gloves of nitrile or rubber; long sleeves, closed shoes, an apron. Goggles go on before the jar is opened and come off last."),
    Caution("Alkali into water, never water onto alkali.", "Add it in small portions to cold water and stir. The other way round it boils at once and spits. The solution may come close to 100 °C by itself."),
    Caution("No aluminium.", "Lye dissolves aluminium and sets free hydrogen, which burns. Zinc, tin, brass, copper and galvanised ware are no better, and glass may crack. Use stainless steel, polypropylene or HDPE that stands heat."),
    Caution("Air the room.", "Do not breathe the dust or the mist. Mix under an extractor or by an open window, and turn your face away."),
    Caution("Keep children and animals out.", "Nobody without goggles stays in the room. Label every jug, never leave one standing, and lock the alkali away dry and closed."),
    Caution("On skin or hair:", "brush dry alkali off, take wet clothing off at once, rinse under running water for at least 15 minutes, and call for medical help. No vinegar, no lemon: they delay the rinsing and make heat."),
    Caution("In an eye:", "rinse at once with clean running water, lids held open, for at least 30 minutes, lenses out if that is easy; somebody else calls for help meanwhile."),
    Caution("Swallowed:", "rinse the mouth, bring on no vomiting, call for help at once."),
)  # fmt: skip

NO_ADVICE = "Follow local codes and licensed practice; this page is no legal or medical advice."


def emergency(own: str) -> str:
    """The book's own emergency line, or a general one."""
    return (
        own.strip()
        or "In an emergency call your country's emergency number or poison centre, and say that it is a burn by lye."
    )


_BY_HAZARD = {
    "heat": Caution("It heats up.", "What is sweet or milky heats the batter and may push it over the rim. Work cool, leave head room, stand the mould in a tray, do not wrap it, and watch it for four hours."),
    "carbon-monoxide": Caution("Carbon monoxide.", "Hot lye and the sugars of milk, fruit or honey can give off carbon monoxide. Keep them cold and apart from strong lye, work in moving air, and never close the vessel."),
    "dust": Caution("Fine powder.", "Do not breathe the dust of clays, oxides and other powders. Wear a dust mask while weighing, and wet the powder before it is stirred."),
    "scratch": Caution("It scrubs.", "Grains and husks in the bar scratch. Keep it from eyes and from broken skin."),
    "sensitiser": Caution("Some people react to it.", "Plant scents and some plants can set off an allergic reaction. Keep within the limit on the supplier's certificate, wear gloves, and name the ingredient to whoever gets a bar."),
    "pregnancy-pets": Caution("Essential oils.", "Undiluted they are not for skin, and not for use around small children, in pregnancy or near pets without expert word."),
    "free-alkali": Caution("Ready-made soap may hold free alkali.", "No lye is added for it, but soap made with plant ash may bring some of its own. Keep within the limit, do not lower the superfat, and test the bar."),
    "nut": Caution("Holds tree nut.", "A food allergen: tell whoever gets a bar."),
    "gluten": Caution("May hold gluten.", "From grain: tell whoever gets a bar."),
}  # fmt: skip

_BY_ALLERGEN = {
    "tree-nut": _BY_HAZARD["nut"],
    "wheat": Caution("Holds wheat.", "A food allergen: tell whoever gets a bar."),
    "sesame": Caution("Holds sesame.", "A food allergen: tell whoever gets a bar."),
    "soy": Caution("Holds soy.", "A food allergen: tell whoever gets a bar."),
    "peanut": Caution("Holds peanut.", "A food allergen: tell whoever gets a bar."),
    "milk": Caution("Holds milk.", "A food allergen: tell whoever gets a bar."),
}

_POTASSIUM = Caution(
    "Two jars that look alike.",
    "Potassium hydroxide burns as sodium hydroxide does, and is harmful if swallowed. The weights are not exchangeable: label both jars, and check the purity on the bag against the one given here.",
)
_POTASSIUM_ALONE = Caution(
    "Potassium lye.",
    "Potassium hydroxide burns as sodium hydroxide does, and is harmful if swallowed. Check the purity on the bag against the one given here, for the weight depends on it.",
)
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
    found += [caution for name, caution in _BY_ALLERGEN.items() if name in allergens]
    alkali = computed.resolved.formula.alkali
    if making and alkali.potassium > 0:
        found.insert(0, _POTASSIUM if alkali.sodium > 0 else _POTASSIUM_ALONE)
    return tuple(dict.fromkeys(found))


def _added(computed: Computed) -> Iterable[str]:
    """Ids of everything added: weighed in, dusted on, set in or strewn."""
    yield from (part.id for part in computed.resolved.formula.additions)
    for step in computed.model.pour:
        if step.line is not None:
            yield step.line.of
        if step.embeds is not None:
            yield step.embeds.of
        if step.top is not None and step.top.strewn is not None:
            yield step.top.strewn


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
