"""The book's own colour evidence: what photos of batches say of the colourants in them.

A photo whose `colours` name a portion that holds exactly one colourant is a chip for that
colourant, at the portion's dose, on the photo's day. Only batches poured to the formula
as it is now count, since only their dose is known.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from saponary.book.records import BatchRecord
from saponary.lye.figures import Figures
from saponary.lye.fingerprint import matches
from saponary.pantry.colour import with_chip
from saponary.pantry.model import Addition, Chip, Pantry
from saponary.pantry.rows import Over
from saponary.quantity.totals import totals


def with_evidence(pantry: Pantry, found: Iterable[tuple[str, Chip]]) -> Pantry:
    """The pantry with every chip that the book's photos give, each with the id of its colourant."""
    additions: dict[str, Addition] = {}
    for name, chip in found:
        entry = additions.get(name, pantry.additions[name])
        if entry.colour is not None:
            additions[name] = replace(entry, colour=with_chip(entry.colour, chip))
    return replace(pantry, additions=Over(pantry.additions, additions)) if additions else pantry


def chips(
    pantry: Pantry, batches: Sequence[BatchRecord], figures: Figures, mark: str
) -> Iterator[tuple[str, Chip]]:
    """What the photos of one recipe's batches show; `mark` is the recipe's fingerprint."""
    doses = _doses(pantry, figures)
    for batch in (record.batch for record in batches):
        if batch.formula is None or not matches(batch.formula, mark):
            continue
        for photo in batch.photos:
            for portion, colour in photo.colours.items():
                if portion in doses:
                    name, dose = doses[portion]
                    yield name, Chip(dose, photo.day, colour, lot=batch.lot)


def _doses(pantry: Pantry, figures: Figures) -> dict[str, tuple[str, float]]:
    """Portions with exactly one colourant: which, and grams of it per kg of the portion's oils."""
    found: dict[str, tuple[str, float]] = {}
    for portion in figures.portions:
        coloured = totals(
            (each.id, each.grams)
            for each in portion.additions
            if pantry.additions[each.id].colour is not None
        )
        if len(coloured) == 1 and portion.oils_grams > 0:
            ((name, grams),) = coloured.items()
            found[portion.name] = (name, 1000.0 * grams / portion.oils_grams)
    return found
