"""What only the maker sees: costs, private notes, rules set aside, and who poured what and where it lies."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from saponary.book.computed import Computed
from saponary.lye.cost import cost
from saponary.quantity.rounding import show
from saponary.views import names
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class Own:
    """Pairs of a label and its text, by group; `unpriced` names what the sum leaves out."""

    costs: tuple[tuple[str, str], ...]
    unpriced: str
    private: tuple[tuple[str, str], ...]
    lots: tuple[tuple[str, str], ...]
    waived: tuple[tuple[str, str], ...]


def own(computed: Computed, site: SiteInput) -> Own | None:
    """None where the edition shows none of it, or there is nothing to show."""
    costs, unpriced = _costs(computed) if site.shows("costs") else ((), "")
    private = tuple(_flat(computed.model.private, ())) if site.shows("private") else ()
    lots = tuple(_lots(computed)) if site.shows("people") else ()
    waived = tuple((f"Rule set aside: {w.name}", w.because) for w in computed.model.waive)
    return Own(costs, unpriced, private, lots, waived) if costs or private or lots or waived else None


def _costs(computed: Computed) -> tuple[tuple[tuple[str, str], ...], str]:
    shelf = computed.pantry
    prices = {
        entry.id: entry.price_per_kg
        for table in (shelf.oils, shelf.liquids, shelf.additions)
        for entry in table.values()
        if entry.price_per_kg is not None
    }
    made = cost(computed.resolved.formula, computed.figures.weights, prices)
    if not made.batch:
        return (), ""
    rows = [("The batch, materials", show(made.batch, 2))]
    if computed.resolved.bars:
        rows.append(("A bar, materials", show(made.per_bar(computed.resolved.bars), 2)))
    return tuple(rows), ", ".join(names.anything(shelf, name) for name in made.unpriced)


def _flat(value: object, path: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """A private map of any shape as pairs; names of nested keys are joined."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _flat(inner, (*path, str(key).replace("-", " ")))
    elif isinstance(value, list):
        for inner in value:
            yield from _flat(inner, path)
    elif value is not None:
        yield ", ".join(path).capitalize() or "Note", str(value)


def _lots(computed: Computed) -> Iterator[tuple[str, str]]:
    for record in computed.batches:
        batch = record.batch
        said = [
            f"{word} {text}"
            for word, text in (("poured by", batch.by), ("shelf", batch.shelf), ("store", batch.store))
            if text
        ]
        notes = [f"{label}: {text}" for label, text in _flat(batch.private, ())]
        if said or notes:
            yield f"Lot {batch.lot}", "; ".join((*said, *notes))
