"""What an ingredient is called: the listed name as the place of sale writes it, and the plain one.

Where no listed name is known to us the plain name stands, and says so. Soaps are named after
the oil they come from, salts after the acid.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from saponary.label.contents import Way
from saponary.label.tables import Jurisdiction
from saponary.lye.contents import Part
from saponary.lye.formula import Metal
from saponary.pantry.model import Addition, Ingredient, Liquid, Oil, Pantry

_HYDROXIDES: dict[Metal, str] = {"sodium": "Sodium Hydroxide", "potassium": "Potassium Hydroxide"}


@dataclass(frozen=True)
class Name:
    """`listed` is false where `text` is only the plain name, `known` where it is not even that."""

    text: str
    common: str
    latin: str = ""
    listed: bool = True
    known: bool = True


def of(part: Part, pantry: Pantry, law: Jurisdiction, way: Way) -> Name:
    """The name of any part but a scent or a colour, which the list gathers."""
    if part.kind == "water":
        return Name(law.water, "Water")
    if part.kind == "glycerol":
        return Name("Glycerin", "Glycerine, formed from the oils")
    if part.kind in ("alkali", "impurity"):
        name = _HYDROXIDES[part.metal or "sodium"]
        return Name(name, name.capitalize())
    if part.kind == "soap":
        return _soap(part, pantry)
    if part.kind == "oil":
        return _oil(part, pantry, law, way)
    if part.kind == "salt":
        return _salt(part, pantry.additions.get(part.id) or pantry.liquid(part.id))
    entry = pantry.liquid(part.id) if part.kind == "liquid" else pantry.additions.get(part.id)
    return _plain(part.id) if entry is None else _entry(entry, law)


def botanical(name: str, pantry: Pantry, law: Jurisdiction) -> Name:
    """What an oil has stood on: a botanical, or a stock of infused oil that names one."""
    if name in pantry.infusions:
        name = pantry.infusions[name].botanical
    entry = pantry.botanical(name)
    if entry is None:
        return _plain(name)
    listed = _entry(entry, law)
    return replace(listed, text=_POWDER.sub("", listed.text) + _EXTRACT) if listed.listed else listed


_POWDER = re.compile(r" (?:Powder|Extract)$")
_EXTRACT = " Extract"
"""What of a plant stays in the oil that it was strained from: INCI calls it an extract (from memory)."""


def addition(name: str, pantry: Pantry, law: Jurisdiction) -> Name:
    """An addition by its id."""
    entry = pantry.additions.get(name)
    return _plain(name) if entry is None else _entry(entry, law)


def is_pigment(entry: Addition) -> bool:
    """Whether a colourant is the pigment itself. A plant has the number of a pigment it holds,
    which does not make it a colour of that number: it is listed among the others."""
    return entry.ci is not None and entry.latin is None


def pigments(entry: Addition, law: Jurisdiction) -> tuple[Name, ...]:
    """A pigment by its Colour Index numbers, or by its name, as the place of sale has it."""
    if law.colours == "number" and entry.ci is not None:
        numbers = (number.strip() for number in entry.ci.split(","))
        return tuple(Name(law.by_name.get(number, f"CI {number}"), entry.name) for number in numbers)
    return (_entry(entry, law),)


def _entry(entry: Oil | Liquid | Addition, law: Jurisdiction) -> Name:
    common, known = plain(entry)
    if entry.inci is None:
        return Name(_short(common), common, entry.latin or "", False, known)
    return Name(law.called(entry.inci), common, entry.latin or "")


def plain(entry: Ingredient) -> tuple[str, bool]:
    """The plain name that a list for the public may show, and whether it is more than a kind.

    What the maker calls a thing of which nothing else is known may be a shop's or a person's name,
    and is kept out of the list.
    """
    if entry.common:
        return entry.common, True
    if entry.inci is not None or not entry.own:
        return entry.name, True
    if isinstance(entry, Liquid):
        kind = "liquid"
    else:
        kind = entry.kind if isinstance(entry, Oil | Addition) and entry.kind != "other" else "addition"
    return f"{kind.replace('-', ' ').capitalize()} of no known name", False


def _oil(part: Part, pantry: Pantry, law: Jurisdiction, way: Way) -> Name:
    entry = pantry.oils.get(part.id)
    if entry is None:
        return _plain(part.id)
    name = _entry(entry, law)
    common = name.common if way == "charged" else f"{name.common}, left over as superfat"
    return replace(name, common=common)


def _soap(part: Part, pantry: Pantry) -> Name:
    entry = pantry.oils.get(part.id)
    metal = part.metal or "sodium"
    common, known = plain(entry) if entry is not None else (_plain(part.id).common, True)
    latin = (entry.latin or "") if entry is not None else ""
    listed = None
    if entry is not None:
        listed = entry.inci_sodium_soap if metal == "sodium" else entry.inci_potassium_soap
    text = listed or f"{_short(common)} ({metal} soap)"
    return Name(text, f"{common}, as {metal} soap", latin, listed is not None, known or listed is not None)


def _salt(part: Part, entry: Oil | Liquid | Addition | None) -> Name:
    metal = part.metal or "sodium"
    common, known = plain(entry) if entry is not None else (_plain(part.id).common, True)
    listed = None
    if isinstance(entry, Liquid | Addition):
        listed = entry.inci_sodium_salt if metal == "sodium" else entry.inci_potassium_salt
    text = listed or f"{_short(common)} ({metal} salt)"
    return Name(text, f"{common}, as its {metal} salt", "", listed is not None, known or listed is not None)


def _plain(name: str) -> Name:
    words = name.replace("-", " ").capitalize()
    return Name(words, words, "", False)


def _short(name: str) -> str:
    """A plain name as one item of a list: without what is said after a comma."""
    return name.partition(",")[0]
