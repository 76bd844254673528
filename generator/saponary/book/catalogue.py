"""Every figure that may be signed, placed or quoted, by its name in plain words.

`lye`, `superfat`, `oil olive`, `portion chalk batter`: one name, one value of the engine,
one kind of unit. What a page prints, what a maker signs and what a check compares all
come through here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from saponary.book.figure import FINGERPRINT, Figure
from saponary.book.made_to import made_to
from saponary.book.resolve import Resolved
from saponary.lye.figures import Figures
from saponary.lye.fingerprint import fingerprint
from saponary.lye.mould import fill_height
from saponary.lye.portions import PortionFigures
from saponary.quantity.numbers import WeightUnit
from saponary.quantity.totals import totals


def catalogue(figures: Figures, built: Resolved, book: WeightUnit) -> dict[str, Figure]:
    """All figures of a recipe by name, in a fixed order; shown in what the book is kept in."""
    found = {figure.name: figure for figure in _all(figures, built)}
    return {name: replace(one, book=book) for name, one in found.items()} if book != Figure.book else found


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


def signature(figures: Mapping[str, Figure], built: Resolved) -> dict[str, str]:
    """What a maker signs: lye, water, superfat and the fingerprint, as `signed:` has them; of a rebatch the soap
    that is melted."""
    if not built.formula.weighs_lye:
        return {"grated-soap": figures["grated-soap"].text(), FINGERPRINT: fingerprint(built.formula)}
    lines = {name: figures[name].text() for name in ("lye", "water", "superfat")}
    if built.formula.alkali.potassium > 0 and built.formula.alkali.sodium > 0:
        lines |= {n: figures[n].text() for n in ("sodium-hydroxide", "potassium-hydroxide")}
    return {**lines, FINGERPRINT: fingerprint(built.formula)}
