"""The colour shelf: what each colourant looks like fresh and cured, and how that is known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from markupsafe import Markup

from saponary.draw.charts.swatch import swatch
from saponary.messages.message import Listed, Message, Number, Value, message, short
from saponary.pantry.colour import seen
from saponary.pantry.model import Addition, Chip, Colour, Pantry
from saponary.pantry.standard import standard
from saponary.views import links, names, shades
from saponary.views.colour_uses import Coloured, uses
from saponary.views.colour_words import in_words
from saponary.views.facts import Fact
from saponary.views.pantry import Use
from saponary.views.site import SiteInput
from saponary.views.sources import where


class Swatch(NamedTuple):
    """A colour: to be seen, in words, and as its sRGB number."""

    picture: Markup
    words: Message
    number: str


class Rung(NamedTuple):
    """One dose of the ladder."""

    name: Message
    dose: Number
    fresh: Swatch
    cured: Swatch


class ChipView(NamedTuple):
    """A result of the maker's own."""

    swatch: Swatch
    dose: Number
    day: Message
    where: Value


class Colourant(NamedTuple):
    id: str
    name: str
    latin: str
    kind: str
    fresh: Swatch
    cured: Swatch
    stays: bool
    known: str
    """How its two colours are known: an id of `known` in the catalogue."""
    facts: tuple[Fact, ...]
    in_alkali: str
    ladder: tuple[Rung, ...]
    ladder_from: tuple[Message, ...]
    chips: tuple[ChipView, ...]
    uses: tuple[Use, ...]
    sources: tuple[Fact, ...]


class Kind(NamedTuple):
    """Colourants of one kind."""

    id: str
    name: Value
    colourants: tuple[Colourant, ...]


class ColoursView(NamedTuple):
    """What this book uses, each in full; then all others, by kind."""

    used: tuple[Colourant, ...]
    others: tuple[Kind, ...]
    numbers: bool
    """Whether colours are told by their sRGB numbers too: those are for the maker."""


def colours_view(site: SiteInput, everything: Iterable[Coloured]) -> ColoursView:
    """`everything` is each recipe's use of each colourant."""
    shelf = site.book.pantry
    used = uses(everything)
    lots = frozenset(lot for recipe in site.recipes for lot, _ in recipe.glance.lots)
    found = sorted(
        (e for e in shelf.additions.values() if e.colour is not None), key=lambda e: (e.name.casefold(), e.id)
    )
    made = [(entry.id, _colourant(entry, shelf, used.get(entry.id, ()), lots)) for entry in found]
    kinds: dict[str, list[Colourant]] = {}
    for name, one in made:
        if name not in used:
            kinds.setdefault(one.kind, []).append(one)
    return ColoursView(
        used=tuple(one for name, one in made if name in used),
        others=tuple(
            Kind(f"kind-{links.anchor(kind)}", _kind_name(kind), tuple(ones))
            for kind, ones in sorted(kinds.items(), key=_rank)
        ),
        numbers=site.shows("private"),
    )


_KINDS = {
    "plant": "plants",
    "botanical": "plants",
    "food": "foods-and-spices",
    "scrub": "grains-and-grounds",
    "clay": "clays",
    "mineral": "minerals",
    "carbon": "carbon",
    "soap": "soap",
}
"""Kinds of the pantry as this page gathers them."""

_ORDER = ("plants", "foods-and-spices", "grains-and-grounds", "clays", "minerals", "carbon", "soap")


def _rank(kind: tuple[str, list[Colourant]]) -> tuple[int, str]:
    return (_ORDER.index(kind[0]) if kind[0] in _ORDER else len(_ORDER), kind[0])


def _kind_name(kind: str) -> Value:
    """A kind of the maker's own goes by its own word."""
    return message(f"colours.kind.{kind}") if kind in _ORDER else names.spoken(kind).capitalize()


def _published(colour: Colour, lots: frozenset[str]) -> Colour:
    """The colour without results from lots that this site does not show."""
    kept = (chip for chip in colour.chips if not chip.lot or chip.lot in lots)
    return replace(colour, chips=tuple(kept))


def _colourant(entry: Addition, shelf: Pantry, used: tuple[Use, ...], lots: frozenset[str]) -> Colourant:
    assert entry.colour is not None
    colour = _published(entry.colour, lots)
    entry = replace(entry, colour=colour)
    return Colourant(
        id=f"colour-{entry.id}",
        name=entry.name,
        latin=entry.latin or "",
        kind=_KINDS.get(entry.kind, entry.kind),
        fresh=_swatch(colour.fresh),
        cured=_swatch(colour.cured),
        stays=colour.stays,
        known=_known(entry),
        facts=tuple(_facts(entry, colour)),
        in_alkali=colour.in_alkali or "",
        ladder=_ladder(entry, colour),
        ladder_from=tuple(_ladder_from(entry, colour)),
        chips=tuple(
            _chip(chip)
            for chip in sorted(colour.chips, key=lambda c: (c.dose, c.day, c.lot, c.note, c.colour))
        ),
        uses=used,
        sources=tuple(_sources(entry, shelf)),
    )


def _swatch(colour: str) -> Swatch:
    number = colour.lower()
    return Swatch(Markup(swatch(number)), in_words(number), number)


def _facts(entry: Addition, colour: Colour) -> Iterator[Fact]:
    if entry.usual:
        low, high = entry.usual
        usual = message("colours.from-to", low=replace(_rate(low), bare=True), high=_rate(high))
        yield Fact(message("colours.usual"), usual)
    if colour.full_depth:
        yield Fact(message("colours.full-depth"), _rate(colour.full_depth))
    if colour.lightfast:
        yield Fact(message("colours.in-light"), message(f"colours.light.{colour.lightfast}"))


def _rate(dose: float, most: int = 1) -> Number:
    """Grams for each kilogram of oils."""
    return short(dose, most, "g/kg")


def _full(entry: Addition, colour: Colour) -> float | None:
    return colour.full_depth or (entry.usual[1] if entry.usual else None)


def _ladder(entry: Addition, colour: Colour) -> tuple[Rung, ...]:
    """A quarter, a half and the whole of the dose of full depth, as the drawings of this book show them."""
    full = _full(entry, colour)
    if not full:
        return ()
    found: list[Rung] = []
    for name, part in (
        (message("colours.quarter"), 0.25),
        (message("colours.half"), 0.5),
        (message("colours.full-depth"), 1.0),
    ):
        shade = shades.shade([shades.tint(entry, part * full, 1000.0)])
        found.append(Rung(name, _rate(part * full, 2), _swatch(shade.fresh), _swatch(shade.cured)))
    return tuple(found)


def _ladder_from(entry: Addition, colour: Colour) -> Iterator[Message]:
    """What the doses' colours rest on, in sentences."""
    full = _full(entry, colour)
    if not full:
        return
    if not colour.full_depth:
        yield message("colours.usual-for-full")
    look = seen(colour, full)
    chips = dict.fromkeys(
        (chip.lot, chip.note) for chip in (look.fresh_chip, look.cured_chip) if chip is not None
    )
    if chips:
        yield message("colours.from-chips", chips=Listed(tuple(_where_seen(*chip) for chip in chips)))
    else:
        yield message("colours.from-table")


def _where_seen(lot: str, note: str) -> Value:
    if lot:
        return message("colours.chip.lot", lot=lot)
    return note or message("colours.chip.plain")


def _chip(chip: Chip) -> ChipView:
    day = message("colours.pour-day") if chip.day == 0 else message("day", day=chip.day)
    return ChipView(_swatch(chip.colour), _rate(chip.dose), day, _where_seen(chip.lot, chip.note))


_GROUPS = ("colours", "usual", "in-alkali", "lightfast")
"""Groups of a colourant's figures that have a source each."""

KEYS_BY_ID = {
    "colours.kind.": _ORDER,
    "colours.light.": ("good", "fair", "poor"),
    "colours.source.": _GROUPS,
    "known.": ("verified", "second-hand", "memory", "computed", "common-practice", "maker", "none"),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _own(entry: Addition) -> bool:
    """Whether the two colours are the maker's own and not the standard table's."""
    if "maker" not in entry.source or entry.colour is None:
        return False
    base = standard().additions.get(entry.id)
    standard_colour = base.colour if base else None
    if standard_colour is None:
        return True
    return (standard_colour.fresh, standard_colour.cured) != (entry.colour.fresh, entry.colour.cured)


def _known(entry: Addition) -> str:
    if _own(entry):
        return "maker"
    source = entry.source.get("colours")
    return source.how if source else "none"


def _sources(entry: Addition, shelf: Pantry) -> Iterator[Fact]:
    own = _own(entry)
    for group in _GROUPS:
        source = entry.source.get(group)
        label = message(f"colours.source.{group}")
        if group == "colours" and own:
            yield Fact(label, message("known.maker"))
        elif source is not None:
            yield Fact(label, message(f"known.{source.how}"), where(source, shelf))
    if "maker" in entry.source and not own:
        yield Fact(message("colours.refined"), message("known.maker"))
