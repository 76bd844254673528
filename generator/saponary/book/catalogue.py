"""Every figure that may be signed, placed or quoted, by its name in plain words.

`lye`, `superfat`, `oil olive`, `portion chalk batter`: one name, one value of the engine,
one kind of unit. What a page prints, what a maker signs and what a check compares all
come through here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import floor, log10
from typing import Literal

from saponary.book.made_to import made_to
from saponary.book.resolve import Resolved
from saponary.lye.figures import Figures
from saponary.lye.fingerprint import fingerprint
from saponary.lye.mould import fill_height
from saponary.lye.portions import PortionFigures
from saponary.messages.message import Number
from saponary.quantity.numbers import WeightUnit, in_book_units
from saponary.quantity.rounding import show
from saponary.quantity.totals import totals
from saponary.quantity.units import LENGTH, MASS, VOLUME, Quantity, QuantityError, parse, parse_ratio

Kind = Literal["mass", "volume", "length", "share", "ratio", "mg/g", "iodine", "count"]

_UNITS: Mapping[Kind, tuple[str, ...]] = {
    "mass": tuple(MASS),
    "volume": tuple(VOLUME),
    "length": tuple(LENGTH),
    "share": ("%",),
    "ratio": ("",),
    "mg/g": ("mg/g",),
    "iodine": ("g/100 g", "g/100g"),
    "count": ("",),
}
_DECIMALS: Mapping[Kind, int] = {
    "mass": 1, "volume": 0, "length": 0, "share": 1, "ratio": 2, "mg/g": 1, "iodine": 1, "count": 0,
}  # fmt: skip
_SHOWN_UNIT: Mapping[Kind, str] = {
    "mass": "g", "volume": "ml", "length": "mm", "share": "%", "ratio": "", "mg/g": "mg/g", "iodine": "g/100 g", "count": "",
}  # fmt: skip


_TABLES: Mapping[Kind, Mapping[str, str]] = {"mass": MASS, "volume": VOLUME, "length": LENGTH}


@dataclass(frozen=True)
class Figure:
    """One figure: its name, its value in the engine's unit, and what kind of thing it is."""

    name: str
    value: float
    kind: Kind
    known: bool = True
    """Whether all that it rests on is known; a superfat's uptake of alkali may not be."""
    book: WeightUnit = "g"
    """What the book is kept in: a weight is shown and signed so."""

    def text(self, unit: str | None = None, decimals: int | None = None) -> str:
        """As shown on a page: number, space, unit."""
        if unit is None:
            made = self.number()
            value, places, unit = in_book_units(made.value, made.decimals, made.unit, self.book)
            return f"{show(value, places if decimals is None else decimals)} {unit}".rstrip()
        number = show(self.in_unit(unit), _DECIMALS[self.kind] if decimals is None else decimals)
        return f"{number} {unit}".rstrip()

    def number(self) -> Number:
        """The same as a figure to be said, which says a weight in the units of the book."""
        unit = _SHOWN_UNIT[self.kind]
        return Number(self.in_unit(unit), _DECIMALS[self.kind], unit)

    def in_unit(self, unit: str) -> float:
        """The value in a unit of its kind."""
        if self.kind == "share":
            return self.value * 100.0
        table = _TABLES.get(self.kind, {})
        return float(Fraction(self.value) / Fraction(table[unit])) if unit in table else self.value


@dataclass(frozen=True)
class Compared:
    """A figure as written beside its recomputed value, at the precision written."""

    figure: Figure
    written: Quantity
    holds: bool
    recomputed: str


_FINEST = 9
"""Decimals beyond which a figure is nought."""
_ROUGHEST = 0.02
"""The part of itself that a weight, volume or length may be off by, however few its decimals: a lye that is off by
a fiftieth moves a superfat by two points. Common practice, no source."""


def compare(figure: Figure, text: str) -> Compared:
    """Hold a figure as written against the recomputed one. Raises QuantityError on bad text."""
    unit = _SHOWN_UNIT[figure.kind]
    if figure.kind == "ratio":
        written = parse_ratio(text)
    else:
        written = parse(text, units=_UNITS[figure.kind], example=f"138.7 {unit}".strip())
    if written.decimals is None:
        raise QuantityError(f"{text.strip()!r} is a fraction", "write a figure as a decimal number")
    value = figure.in_unit(written.unit)
    number = show(value, written.decimals)
    if written.value == 0 and show(value, _FINEST) != show(0.0, _FINEST):
        # A nought holds nothing to anything, however few its decimals: give it three figures.
        number = show(value, max(written.decimals, 2 - floor(log10(abs(value)))))
    return Compared(figure, written, Fraction(number) == written.value, f"{number} {written.unit}".rstrip())


def compare_quoted(figure: Figure, text: str) -> Compared:
    """The same for a figure that a reader sees: it must be about the value too, however few its decimals."""
    found = compare(figure, text)
    if figure.kind not in _TABLES:
        return found
    value, decimals = figure.in_unit(found.written.unit), found.written.decimals or 0
    number = show(value, decimals)
    while _too_rough(number, value) and decimals < _FINEST:
        decimals += 1
        number = show(value, decimals)
    if decimals == found.written.decimals:
        return found
    return Compared(figure, found.written, False, f"{number} {found.written.unit}".rstrip())


def _too_rough(number: str, value: float) -> bool:
    """Whether a number, rounded as it is, is no longer about the value."""
    return abs(float(Fraction(number)) - value) > _ROUGHEST * abs(value)


def catalogue(figures: Figures, built: Resolved, book: WeightUnit) -> dict[str, Figure]:
    """All figures of a recipe by name, in a fixed order; shown in what the book is kept in."""
    return {figure.name: replace(figure, book=book) for figure in _all(figures, built)}


def _all(f: Figures, built: Resolved) -> Iterator[Figure]:
    yield from _of_lye(f, built) if built.formula.weighs_lye else _of_soap(f, built)
    yield from _named("addition", ((a.id, a.grams) for a in built.formula.additions))
    yield from _named("liquid", ((q.id, q.grams) for q in built.formula.liquids))
    yield Figure("batter-volume", f.batter_ml, "volume")
    for name, value in made_to(f, built.formula, built.aims, built.bars):
        yield Figure(name, value, "mass")
    height = fill_height(built.mould, f.loaf_ml) if built.mould is not None else None
    if height is not None:
        yield Figure("fill-height", height, "length")
    if built.bars:
        yield Figure("bars", float(built.bars), "count")
        yield Figure("bar", f.loaf / built.bars, "mass")
    for portion in f.portions:
        yield from _portion(portion, built.formula.weighs_lye)


def _of_soap(f: Figures, built: Resolved) -> Iterator[Figure]:
    """Of a rebatch: no lye is weighed, so that there is no figure of any."""
    yield Figure("grated-soap", built.formula.base_grams, "mass")
    yield Figure("batter", f.batter, "mass")
    yield Figure("placed", f.placed, "mass")


def _of_lye(f: Figures, built: Resolved) -> Iterator[Figure]:
    mass: list[tuple[str, float]] = [
        ("lye", f.weights.total),
        ("sodium-hydroxide", f.weights.sodium_hydroxide),
        ("potassium-hydroxide", f.weights.potassium_hydroxide),
        ("water", f.water.total),
        ("plain-water", f.water.plain),
        ("liquids-water", f.water.liquids),
        ("additions-water", f.water.additions),
        ("lye-solution", f.weights.total + f.water.plain),
        ("oils", f.oils),
        ("batter", f.batter),
        ("placed", f.placed),
        ("glycerol", f.balance.glycerol),
        ("soap", f.balance.soap),
    ]
    yield from (Figure(name, value, "mass") for name, value in mass)
    yield from _named("oil", ((o.id, o.grams) for o in built.formula.oils))
    yield from _after_cook(f, built)
    shares = [
        ("superfat", f.superfat),
        ("superfat-as-weighed", f.superfat_as_weighed),
        ("superfat-with-liquids-fat", f.superfat_with_liquids_fat),
        ("superfat-likely-low", f.bands.likely.low),
        ("superfat-likely-high", f.bands.likely.high),
        ("superfat-worst-low", f.bands.worst.low),
        ("superfat-worst-high", f.bands.worst.high),
        ("lye-strength", f.lye_strength),
        ("lye-strength-dissolved", f.lye_strength_dissolved),
        ("water-of-oils", f.water_of_oils),
    ]
    for name, value in shares:
        yield Figure(name, value, "share", f.superfat_known or not name.startswith("superfat"))
    yield Figure("water-to-lye", f.water_to_lye, "ratio")
    yield Figure("saponification-value", f.chemistry.saponification_value, "mg/g")
    if f.chemistry.iodine_value is not None:
        yield Figure("iodine-value", f.chemistry.iodine_value, "iodine")


def _after_cook(f: Figures, built: Resolved) -> Iterator[Figure]:
    """Of oils that are stirred in after the cook, where there are any."""
    late = built.formula.after_cook
    if late:
        yield Figure("after-cook-oils", built.formula.after_cook_grams, "mass")
        yield from _named("after-cook", ((o.id, o.grams) for o in late))
        yield Figure("superfat-after-cook", f.late.superfat, "share")
        yield Figure("superfat-in-all", f.late.superfat_in_all, "share", f.superfat_known)


def _named(word: str, pairs: Iterable[tuple[str, float]]) -> Iterator[Figure]:
    yield from (Figure(f"{word} {name}", grams, "mass") for name, grams in totals(pairs).items())


def _portion(p: PortionFigures, weighs_lye: bool) -> Iterator[Figure]:
    head = f"portion {p.name}"
    yield Figure(f"{head} batter", p.batter, "mass")
    lye = (
        ("oils", p.oils_grams),
        ("lye", p.weights.total),
        ("sodium-hydroxide", p.weights.sodium_hydroxide),
        ("potassium-hydroxide", p.weights.potassium_hydroxide),
        ("water", p.water),
        ("plain-water", p.plain_water),
        ("lye-solution", p.lye_solution),
    )
    for name, value in lye if weighs_lye else ():
        yield Figure(f"{head} {name}", value, "mass")
    yield from _named(f"{head} addition", ((a.id, a.grams) for a in p.additions))
    yield from _named(f"{head} liquid", ((q.id, q.grams) for q in p.liquids))
    yield from _named(f"{head} oil", ((o.id, o.grams) for o in p.oils))
    yield Figure(f"{head} volume", p.batter_ml, "volume")


FINGERPRINT = "formula"
"""The one signed entry that is no number: the formula's fingerprint."""


def signature(figures: Mapping[str, Figure], built: Resolved) -> dict[str, str]:
    """What a maker signs: lye, water, superfat and the fingerprint, as `signed:` has them; of a rebatch the soap
    that is melted."""
    if not built.formula.weighs_lye:
        return {"grated-soap": figures["grated-soap"].text(), FINGERPRINT: fingerprint(built.formula)}
    lines = {name: figures[name].text() for name in ("lye", "water", "superfat")}
    if built.formula.alkali.potassium > 0 and built.formula.alkali.sodium > 0:
        lines |= {n: figures[n].text() for n in ("sodium-hydroxide", "potassium-hydroxide")}
    return {**lines, FINGERPRINT: fingerprint(built.formula)}
