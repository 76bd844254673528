"""What a label says beside its list, by the law of its place, and what its maker is to mind."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.label.colour_law import unlisted
from saponary.label.lists import Bar
from saponary.label.tables import LabelFact, jurisdictions
from saponary.messages.message import Message, Value, message
from saponary.schema.selling import ForSale, PlaceOfSale
from saponary.schema.settings import Settings


def minds(bar: Bar, settings: Settings, law: PlaceOfSale) -> Iterator[Message]:
    """What a maker is to mind before a label for this place goes on."""
    colours = unlisted(bar.charged, bar.pantry, jurisdictions()[law])
    if colours:
        yield message("label.unlisted", colours=", ".join(colours))
    kinds = [entry.name for entry in bar.ingredients(jurisdictions()[law]).entries if not entry.known]
    if kinds:
        yield message("label.unnamed", kinds=", ".join(kinds))
    if settings.after_opening_months and wanted(law, "durability"):
        yield message("label.opened-sign")


def wanted(law: PlaceOfSale, fact: LabelFact) -> bool:
    """Whether a label for this place carries a fact."""
    return fact in jurisdictions()[law].label


def responsible(settings: Settings, sold: ForSale) -> Value:
    """The person in law with the address; the maker, and where, if none is stated for this place."""
    if sold.responsible is not None:
        return message("label.from", name=sold.responsible.name, address=sold.responsible.address)
    return ", ".join(part for part in (settings.maker or settings.title, settings.place) if part)


def facts(settings: Settings, sold: ForSale, law: PlaceOfSale) -> Iterator[Value]:
    if settings.function and wanted(law, "function"):
        yield settings.function
    if settings.after_opening_months and wanted(law, "durability"):
        yield message("label.after-opening", months=settings.after_opening_months)
    if sold.origin and wanted(law, "origin"):
        yield message("label.origin", place=sold.origin)
    if sold.contact and wanted(law, "contact"):
        yield message("label.contact", contact=sold.contact)
