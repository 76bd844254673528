"""The ingredient list: what is in the bar, named and put in order as the place of sale has it.

By falling mass; those of so small a share that any order will do, after the others, kept in
falling mass all the same, so that two builds give one list; colours last. All scents are one
entry. What has no weight (what an infusion gave its oil, what is sprinkled on top) ends the
small ones. Impurities are no ingredients.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

from saponary.label import names
from saponary.label.colour_law import unlisted
from saponary.label.contents import Contents, Way
from saponary.label.names import Name
from saponary.label.scents import Scent, is_scent
from saponary.label.tables import Jurisdiction, as_on_paper, guidance
from saponary.pantry.model import Pantry

Group = Literal["main", "small", "allergen", "colour"]


class Entry(NamedTuple):
    """One item. `grams` are of the batch and `share` of the whole; both None where nothing was
    weighed. `commons` are the plain names of all that goes under this name.
    """

    name: str
    commons: tuple[str, ...]
    latin: str
    grams: float | None
    share: float | None
    group: Group
    listed: bool
    known: bool = True


class IngredientList(NamedTuple):
    """A whole list, and the sentences that belong with it."""

    law: Jurisdiction
    way: Way
    entries: tuple[Entry, ...]
    notes: tuple[str, ...]

    @property
    def text(self) -> str:
        """The names in their order, as they would be printed."""
        return ", ".join(entry.name for entry in self.entries)


@dataclass
class _Line:
    name: Name
    grams: float | None
    colour: bool
    commons: list[str]


def ingredient_list(contents: Contents, pantry: Pantry, law: Jurisdiction, scent: Scent) -> IngredientList:
    """The list for one place of sale. `scent` is that of the same bar, cured."""
    lines: dict[tuple[str, bool], _Line] = {}
    for name, grams, colour in _named(contents, pantry, law):
        line = lines.setdefault((name.text, colour), _Line(name, 0.0, colour, []))
        line.grams = None if grams is None or line.grams is None else line.grams + grams
        if name.common not in line.commons:
            line.commons.append(name.common)
    for name, colour in _loose(contents, pantry, law):
        lines.setdefault((name.text, colour), _Line(name, None, colour, [name.common]))
    whole = contents.grams
    entries = [_entry(line, whole, law) for line in lines.values()]
    taken = {entry.name for entry in entries}
    entries += [
        Entry(dose.allergen.name, ("in the scent",), "", dose.grams, dose.share, "allergen", True)
        for dose in scent.doses
        if law.wants_named(dose.share, dose.allergen.since) and dose.allergen.name not in taken
    ]
    entries.sort(key=lambda entry: _place(entry, law))
    return IngredientList(law, contents.way, tuple(entries), _notes(contents, pantry, law, scent, entries))


def _named(
    contents: Contents, pantry: Pantry, law: Jurisdiction
) -> Iterator[tuple[Name, float | None, bool]]:
    for part in contents.parts:
        if part.grams <= 0 or part.kind == "impurity":
            continue
        entry = pantry.additions.get(part.id) if part.kind == "addition" else None
        if is_scent(part, pantry) and entry is not None:
            yield Name(law.fragrance, entry.name), part.grams, False
        elif entry is not None and names.is_pigment(entry):
            pigments = names.pigments(entry, law)
            for name in pigments:
                yield name, part.grams if len(pigments) == 1 else None, True
        else:
            yield names.of(part, pantry, law, contents.way), part.grams, False


def _loose(contents: Contents, pantry: Pantry, law: Jurisdiction) -> Iterator[tuple[Name, bool]]:
    """What has no weight of its own."""
    for part in contents.parts:
        for soaked in part.infused_with:
            yield names.botanical(soaked, pantry, law), False
    for name in contents.unweighed:
        entry = pantry.additions.get(name)
        if entry is not None and names.is_pigment(entry):
            yield from ((pigment, True) for pigment in names.pigments(entry, law))
        else:
            yield names.addition(name, pantry, law), False


def _entry(line: _Line, whole: float, law: Jurisdiction) -> Entry:
    share = line.grams / whole if line.grams is not None and whole > 0 else None
    small = share is None or law.is_small(share)
    group: Group = "colour" if line.colour else "small" if small else "main"
    name = line.name
    return Entry(
        name.text, tuple(line.commons), name.latin, line.grams, share, group, name.listed, name.known
    )


def _place(entry: Entry, law: Jurisdiction) -> tuple[int, float, bool, str]:
    """Sort key: main (with any allergen of more than a small share), small, allergens, colours."""
    place = {"main": 0, "small": 1, "allergen": 2, "colour": 3}[entry.group]
    share = as_on_paper(entry.share) if entry.share is not None else 0.0
    if entry.group == "allergen" and not law.is_small(share):
        place = 0
    if entry.group == "colour" and law.colours == "number":
        share = 0.0
    return place, -share, entry.group == "allergen", entry.name


def _notes(
    contents: Contents, pantry: Pantry, law: Jurisdiction, scent: Scent, entries: list[Entry]
) -> tuple[str, ...]:
    notes = [guidance(), *law.notes]
    if contents.water is not None:
        notes.append(contents.water.note)
    notes += contents.notes
    unknown = [entry.name for entry in entries if not entry.known]
    if unknown:
        notes.append(f"No name known to us, so only the kind is told: {', '.join(unknown)}.")
    plain = [entry.name for entry in entries if entry.known and not entry.listed]
    if plain:
        notes.append(f"No listed name known to us, so the plain name stands: {', '.join(plain)}.")
    loose = [entry.name for entry in entries if entry.grams is None and entry.group != "colour"]
    if loose:
        notes.append(f"Not weighed, so put among the smallest: {', '.join(loose)}.")
    colours = unlisted(contents, pantry, law)
    if colours:
        notes.append(f"Not known to be listed as a colour for soap in the {law.name}: {', '.join(colours)}.")
    if law.allergens_above is not None and scent.without_sheet:
        bare = ", ".join(pantry.additions[name].name for name in scent.without_sheet)
        notes.append(f"No supplier's allergen sheet, so allergens may be missing: {bare}.")
    return tuple(notes)
