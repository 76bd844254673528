"""What only the maker sees: costs, private notes, rules set aside, and who poured what and where it lies."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.batch_cost import batch_cost
from saponary.book.published import Published
from saponary.messages.message import Value, clauses, message
from saponary.reading.plain import is_list, is_map
from saponary.views.costs import money, unpriced
from saponary.views.site import SiteInput

Rows = tuple[tuple[Value, Value], ...]
"""Pairs of a label and its text."""


class MakerOnly(NamedTuple):
    """Rows by group; `unpriced` is what the sum of the costs leaves out."""

    costs: Rows
    unpriced: Value
    private: Rows
    lots: Rows
    waived: Rows


def maker_only(computed: Published, site: SiteInput) -> MakerOnly | None:
    """None where the edition shows none of it, or there is nothing to show."""
    costs, left_out = _costs(computed) if site.shows("costs") else ((), "")
    private = tuple(_flat(computed.model.private, ())) if site.shows("private") else ()
    lots = tuple(_lots(computed)) if site.shows("people") else ()
    waived = tuple((message("maker.waived", rule=w.name), w.because) for w in computed.model.waive)
    return MakerOnly(costs, left_out, private, lots, waived) if costs or private or lots or waived else None


def _costs(computed: Published) -> tuple[Rows, Value]:
    made, bars = batch_cost(computed), computed.resolved.bars
    if not made.batch:
        return (), ""
    rows: Rows = ((message("maker.batch-cost"), money(made.batch, computed.settings)),)
    if bars:
        rows += ((message("maker.bar-cost"), money(made.per_bar(bars), computed.settings)),)
    return rows, unpriced(made, computed.pantry)


def _flat(value: object, path: tuple[str, ...]) -> Iterator[tuple[Value, str]]:
    """A private map of any shape as pairs; names of nested keys are joined."""
    if is_map(value):
        for key, inner in value.items():
            yield from _flat(inner, (*path, str(key).replace("-", " ")))
    elif is_list(value):
        for inner in value:
            yield from _flat(inner, path)
    elif value is not None:
        yield ", ".join(path).capitalize() or message("maker.note"), str(value)


def _lots(computed: Published) -> Iterator[tuple[Value, Value]]:
    for record in computed.batches:
        batch = record.batch
        notes: list[Value] = []
        if batch.by:
            notes.append(message("maker.poured-by", person=batch.by))
        if batch.shelf:
            notes.append(message("maker.shelf", place=batch.shelf))
        if batch.store:
            notes.append(message("maker.store", place=batch.store))
        notes += [message("maker.noted", label=label, text=text) for label, text in _flat(batch.private, ())]
        if notes:
            yield message("batch.lot", lot=batch.lot), clauses(*notes)
