"""Figures of what a batch is made to: the bar it cures to, the least of it that the scale can weigh, a thinned soap."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from saponary.book.cured import cured_water
from saponary.book.figure import Figure
from saponary.book.published import Published
from saponary.lye.smallest import DRIFT, STEPS, SUPERFAT, for_superfat, smallest
from saponary.messages.message import Message, Value, Within, grams, message, percent, short
from saponary.quantity.numbers import Scale
from saponary.views import names
from saponary.views.entries import Entry, entry
from saponary.views.weigh_sheet import scale_step


def made_to(computed: Published, scale: Scale) -> Iterator[Entry]:
    """In the order of the work: what is weighed, what is thinned, what cures."""
    figures = computed.catalogue
    if "cured-bar" in figures:
        yield entry(figures["cured-bar"], message("figure.cured-bar"), _cured(computed))
    if computed.resolved.aims.fatty_matter is not None:
        yield from _thinned(computed)
    if "smallest-batch" in figures and figures["smallest-batch"].value > 0:
        yield entry(figures["smallest-batch"], message("figure.smallest-batch"), _least(computed, scale))


def _cured(computed: Published) -> Value:
    aims, figures = computed.resolved.aims, computed.catalogue
    assert aims.kept is not None
    bars = aims.kept.bars
    why: Message = message("figure.by-bars", count=bars)
    if not bars:
        why = message("figure.by-balance", water=short(100 * cured_water(computed.settings).share, unit="%"))
    if aims.net_weight is None or "oils-for-label" not in figures:
        return why
    return message(
        "figure.for-label",
        why=why,
        wanted=short(aims.net_weight, unit="g"),
        each=figures["bar-for-label"].number(),
        oils=figures["oils-for-label"].number(),
    )


def _thinned(computed: Published) -> Iterator[Entry]:
    aims, figures = computed.resolved.aims, computed.catalogue
    assert aims.fatty_matter is not None
    matter, paste = figures["total-fatty-matter"], figures["paste"]
    share = percent(matter.value / paste.value) if paste.value > 0 else ""
    note = message("figure.in-paste", share=share)
    yield entry(matter, message("figure.total-fatty-matter"), note)
    wanted, whole = short(100 * aims.fatty_matter, unit="%"), figures["liquid-soap"].number()
    thinned = message("figure.thinned", share=wanted, whole=whole)
    yield entry(figures["dilution-water"], message("figure.dilution-water"), thinned)
    acid = figures.get("neutralising-acid")
    if acid is not None and acid.value > 0 and aims.acid is not None:
        called = names.addition(computed.pantry, aims.acid.id)
        yield entry(acid, message("figure.neutralising-acid", acid=called))


def stocks(computed: Published) -> Iterator[Entry]:
    """What of each stock is weighed, and the water beside."""
    figures, stock = computed.catalogue, computed.resolved.formula.stock
    for name, strength in (("sodium-hydroxide", stock.sodium), ("potassium-hydroxide", stock.potassium)):
        drawn: Figure | None = figures.get(f"{name}-stock")
        if drawn is not None and strength is not None:
            note = message("figure.stock-strength", strength=short(100 * strength, unit="%"))
            yield entry(drawn, message("figure.stock", alkali=names.charge(name)), note)
    if "water-beside-stock" in figures:
        note = message("figure.of-all-water", water=figures["water"].number())
        yield entry(figures["water-beside-stock"], message("figure.beside-stock"), note)


def _least(computed: Published, scale: Scale) -> Message:
    found = smallest(computed.resolved.formula, computed.figures)
    if found.part == SUPERFAT:
        return message("figure.smallest-superfat", step=scale_step(scale), drift=percent(DRIFT))
    return message(
        "figure.smallest-part",
        step=scale_step(scale),
        part=Within(_part(computed, found.part)),
        count=STEPS,
        enough=grams(ceil(for_superfat(computed.resolved.formula, computed.figures)), 0),
    )


def _part(computed: Published, part: str) -> str:
    return names.anything(computed.pantry, part)
