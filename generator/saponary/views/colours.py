"""The colour shelf: what each colourant looks like fresh and cured, and how that is known."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from saponary.draw.charts.swatch import swatch
from saponary.pantry.colour import CURED_FROM, FRESH_UNTIL, seen
from saponary.pantry.model import Addition, Chip, Colour, Pantry, Source
from saponary.pantry.standard import standard
from saponary.quantity.numbers import short
from saponary.views import links, names, shades
from saponary.views.colour_uses import Use, uses
from saponary.views.colour_words import in_words
from saponary.views.lots import Fact
from saponary.views.site import RecipeInput, SiteInput


@dataclass(frozen=True)
class Swatch:
    """A colour: to be seen, in words, and as its sRGB number."""

    picture: Markup
    words: str
    number: str


@dataclass(frozen=True)
class Rung:
    """One dose of the ladder."""

    name: str
    dose: str
    fresh: Swatch
    cured: Swatch


@dataclass(frozen=True)
class ChipView:
    """A result of the maker's own."""

    swatch: Swatch
    dose: str
    day: str
    where: str


@dataclass(frozen=True)
class Colourant:
    id: str
    name: str
    latin: str
    kind: str
    fresh: Swatch
    cured: Swatch
    stays: str
    known: str
    facts: tuple[Fact, ...]
    in_alkali: str
    ladder: tuple[Rung, ...]
    ladder_from: str
    chips: tuple[ChipView, ...]
    uses: tuple[Use, ...]
    sources: tuple[Fact, ...]


@dataclass(frozen=True)
class Kind:
    id: str
    name: str
    colourants: tuple[Colourant, ...]


@dataclass(frozen=True)
class ColoursView:
    """What this book uses, each in full; then all others, by kind."""

    used: tuple[Colourant, ...]
    others: tuple[Kind, ...]
    fresh_until: str
    cured_from: str


def colours_view(site: SiteInput, recipes: Sequence[RecipeInput], up: str) -> ColoursView:
    shelf = site.book.pantry
    used = uses(recipes, shelf, up)
    lots = frozenset(f"lot {record.batch.lot}" for recipe in recipes for record in recipe.computed.batches)
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
            Kind(f"kind-{links.anchor(kind)}", kind, tuple(ones))
            for kind, ones in sorted(kinds.items(), key=_rank)
        ),
        fresh_until=str(FRESH_UNTIL),
        cured_from=str(CURED_FROM),
    )


_KINDS = {
    "plant": "Plants",
    "food": "Foods and spices",
    "botanical": "Plants",
    "scrub": "Grains and grounds",
    "clay": "Clays",
    "mineral": "Minerals",
    "carbon": "Carbon",
    "soap": "Soap",
}


def _rank(kind: tuple[str, list[Colourant]]) -> tuple[int, str]:
    order = list(dict.fromkeys(_KINDS.values()))
    return (order.index(kind[0]) if kind[0] in order else len(order), kind[0])


def _published(colour: Colour, lots: frozenset[str]) -> Colour:
    """The colour without results from lots that this site does not show."""
    kept = (chip for chip in colour.chips if not chip.seen.startswith("lot ") or chip.seen in lots)
    return replace(colour, chips=tuple(kept))


def _colourant(entry: Addition, shelf: Pantry, used: tuple[Use, ...], lots: frozenset[str]) -> Colourant:
    assert entry.colour is not None
    colour = _published(entry.colour, lots)
    entry = replace(entry, colour=colour)
    return Colourant(
        id=f"colour-{entry.id}",
        name=entry.name,
        latin=entry.latin or "",
        kind=_KINDS.get(entry.kind, names.spoken(entry.kind).capitalize()),
        fresh=_swatch(colour.fresh),
        cured=_swatch(colour.cured),
        stays="The colour stays" if colour.stays else "The colour changes",
        known=_known(entry),
        facts=tuple(_facts(entry, colour)),
        in_alkali=colour.in_alkali or "",
        ladder=_ladder(entry, colour),
        ladder_from=_ladder_from(entry, colour),
        chips=tuple(
            _chip(chip) for chip in sorted(colour.chips, key=lambda c: (c.dose, c.day, c.seen, c.colour))
        ),
        uses=used,
        sources=tuple(_sources(entry, shelf)),
    )


def _swatch(colour: str) -> Swatch:
    number = colour.lower()
    return Swatch(Markup(swatch(number)), in_words(number), number)


def _facts(entry: Addition, colour: Colour) -> Iterator[Fact]:
    if entry.usual:
        yield Fact("Usual", f"{short(entry.usual[0])} to {short(entry.usual[1])} g/kg")
    if colour.full_depth:
        yield Fact("Full depth", f"{short(colour.full_depth)} g/kg")
    if colour.lightfast:
        yield Fact("In light", _LIGHT.get(colour.lightfast, colour.lightfast))


_LIGHT = {"good": "lasts well", "fair": "lasts fairly", "poor": "fades"}


def _full(entry: Addition, colour: Colour) -> float | None:
    return colour.full_depth or (entry.usual[1] if entry.usual else None)


def _ladder(entry: Addition, colour: Colour) -> tuple[Rung, ...]:
    """A quarter, a half and the whole of the dose of full depth, as the drawings of this book show them."""
    full = _full(entry, colour)
    if not full:
        return ()
    found = []
    for name, part in (("A quarter", 0.25), ("Half", 0.5), ("Full depth", 1.0)):
        shade = shades.shade([shades.tint(entry, part * full, 1000.0)])
        found.append(Rung(name, f"{short(part * full, 2)} g/kg", _swatch(shade.fresh), _swatch(shade.cured)))
    return tuple(found)


def _ladder_from(entry: Addition, colour: Colour) -> str:
    full = _full(entry, colour)
    if not full:
        return ""
    look = seen(colour, full)
    chips = dict.fromkeys(chip.seen for chip in (look.fresh_chip, look.cured_chip) if chip is not None)
    base = (
        ""
        if colour.full_depth
        else "Its full depth is not known; the upper end of the usual range is taken for it. "
    )
    if chips:
        return f"{base}Worked out from this book's own results, {names.listed(list(chips))}."
    return f"{base}An estimate, worked out from the two colours above."


def _chip(chip: Chip) -> ChipView:
    day = "the day it was poured" if chip.day == 0 else f"day {chip.day}"
    return ChipView(_swatch(chip.colour), f"{short(chip.dose)} g/kg", day, chip.seen)


HOW = {
    "verified": "verified",
    "second-hand": "second-hand",
    "memory": "from memory",
    "computed": "worked out",
    "common-practice": "common practice, no source",
    "maker": "the maker's own",
}
_GROUPS = {"colours": "Colours", "usual": "Usual range", "in_alkali": "In alkali", "lightfast": "In light"}


def _own(entry: Addition) -> bool:
    """Whether the two colours are the maker's own and not the standard table's."""
    if "maker" not in entry.source or entry.colour is None:
        return False
    base = standard().additions.get(entry.id)
    told = base.colour if base else None
    return told is None or (told.fresh, told.cured) != (entry.colour.fresh, entry.colour.cured)


def _known(entry: Addition) -> str:
    if _own(entry):
        return HOW["maker"]
    source = entry.source.get("colours")
    return HOW[source.how] if source else "no source"


def _sources(entry: Addition, shelf: Pantry) -> Iterator[Fact]:
    own = _own(entry)
    for group, label in _GROUPS.items():
        source = entry.source.get(group)
        if group == "colours" and own:
            yield Fact(label, HOW["maker"])
        elif source is not None:
            yield Fact(label, HOW[source.how], _where(source, shelf))
    if "maker" in entry.source and not own:
        yield Fact("Refined", HOW["maker"])


def _where(source: Source, shelf: Pantry) -> str:
    title = shelf.publications.get(source.publication, source.publication) if source.publication else ""
    return "; ".join(filter(None, (title, source.where)))
