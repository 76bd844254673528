"""From a recipe as written to a formula in grams, with everything that does not add up.

This is where shares become grams, names become pantry entries, and a mould becomes so much
oil. Whatever cannot be resolved is a finding; a formula comes back only where nothing that
matters to the lye was left open.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from saponary.book import blend
from saponary.book.aims import NOTHING, Aims, aims, thinned
from saponary.book.batch_parts import BatchParts, batch_parts
from saponary.book.lye_written import alkali, stock, water
from saponary.lye import mould as geometry
from saponary.lye.containers import Containers, containers
from saponary.lye.figures import weigh
from saponary.lye.formula import Alkali, Formula, Water
from saponary.pantry.model import Pantry
from saponary.reading.findings import Finding, has_errors, suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path, Tree
from saponary.schema import recipe as written
from saponary.schema.settings import Settings

FILL = 0.95
"""How full a mould is poured where nothing is said: common practice, no source."""


class Sized(NamedTuple):
    """The formula at another size: a mould filled, or a weight of oils."""

    name: str
    formula: Formula
    bars: int | None


@dataclass(frozen=True)
class Resolved:
    """A formula, and what of the recipe stays outside the engine."""

    formula: Formula
    mould: geometry.Mould | None = None
    mould_name: str | None = None
    bars: int | None = None
    sizes: tuple[Sized, ...] = ()
    aims: Aims = NOTHING
    containers: Containers | None = None


def resolve(
    recipe: written.Recipe, settings: Settings, pantry: Pantry, tree: Tree, file: str
) -> tuple[Resolved | None, list[Finding]]:
    """Resolve a recipe against the book's settings and pantry."""
    report = Reporter(tree, file, "sense")
    shares, total, lye = _base(recipe, settings, pantry, report)
    parts = batch_parts(recipe, shares, pantry, settings, report)
    mould_name, mould = _mould(recipe, pantry, report)
    wanted = aims(recipe, pantry, report)
    if lye is None or has_errors(report.findings):
        return None, report.findings

    def at(oils: float) -> Formula:
        return _formula(oils, lye, parts, recipe, settings)

    if total is None:
        total = _filling(recipe, at, mould, report)
    if total is None:
        return None, report.findings
    whole = at(total)
    sizes = _sizes(recipe, whole, pantry, report)
    filled = _containers(recipe, whole, wanted)
    return Resolved(whole, mould, mould_name, _bars(recipe, mould), sizes, wanted, filled), report.findings


def _containers(recipe: written.Recipe, whole: Formula, wanted: Aims) -> Containers | None:
    """The jars or bottles that the soap fills once it is thinned, where the recipe says what one holds."""
    if recipe.container is None or recipe.container.millilitres <= 0:
        return None
    figures = weigh(whole)
    thin = thinned(whole, figures, wanted)
    water = max(0.0, thin.water) if thin is not None else 0.0
    return containers(figures.batter_ml + water, figures.batter + water, recipe.container.millilitres)


class _Lye(NamedTuple):
    alkali: Alkali
    superfat: float
    water: Water


_NO_LYE = _Lye(Alkali(), 0.0, Water("to-lye", 0.0))


def _base(
    recipe: written.Recipe, settings: Settings, pantry: Pantry, report: Reporter
) -> tuple[dict[str, float], float | None, _Lye | None]:
    """Shares of the blend, grams of what the batch is made of (None where a mould decides it), and its lye."""
    if not recipe.by.weighs_lye:
        return {}, sum(part.amount.grams for part in recipe.soap), _NO_LYE
    shares = blend.shares(recipe.oils.parts, ("oils", "parts"), pantry, report)
    return shares, blend.total(recipe.oils, report), _lye(recipe, settings, report)


def _lye(recipe: written.Recipe, settings: Settings, report: Reporter) -> _Lye | None:
    """The recipe's own alkali, superfat and water, or the book's."""
    found = alkali(recipe.lye, settings, report)
    superfat = recipe.superfat or settings.superfat
    if superfat is None:
        report.add((), "no superfat is given", "add superfat: 5 % here or in book.yaml")
    wet = recipe.water or settings.water
    if wet is None:
        report.add((), "no water is given", "add water: {lye-strength: 33 %} here or in book.yaml")
    if found is None or superfat is None or wet is None:
        return None
    return _Lye(found, superfat.fraction, water(wet))


def _formula(
    oils_grams: float, lye: _Lye, parts: BatchParts, recipe: written.Recipe, settings: Settings
) -> Formula:
    """The whole batch for so many grams of oils."""
    oils, portions = parts.oils_and_portions(oils_grams)

    def with_water(water: float) -> Formula:
        return Formula(
            oils=oils,
            alkali=lye.alkali,
            superfat=lye.superfat,
            water=lye.water,
            liquids=tuple(make(oils_grams, water) for make in parts.liquids),
            additions=tuple(make(oils_grams) for make in parts.additions),
            portions=portions,
            separate_pots=recipe.pots == "separate",
            scale_step=settings.scale_step_grams,
            stock=stock(recipe.lye_stock, settings),
            after_cook=tuple(make(oils_grams) for make in parts.after_cook),
        )

    return with_water(_water_of(with_water) if parts.of_water else 0.0)


def _water_of(with_water: Callable[[float], Formula]) -> float:
    """Grams of water of a lye some of whose liquids are shares of that water.

    An acid liquid asks for lye, and so for water, in proportion to itself: the water is the one
    that is right for the liquids it gives.
    """
    none, one = (weigh(with_water(grams)).water.total for grams in (0.0, 1.0))
    return none / (1.0 - (one - none))


def _mould(
    recipe: written.Recipe, pantry: Pantry, report: Reporter
) -> tuple[str | None, geometry.Mould | None]:
    fill = recipe.oils.fill
    name = fill.mould if fill else recipe.mould
    if name is None:
        return None, None
    path: Path = ("oils", "fill", "mould") if fill else ("mould",)
    return name, _known_mould(name, path, pantry, report)


def _known_mould(name: str, path: Path, pantry: Pantry, report: Reporter) -> geometry.Mould | None:
    if name not in pantry.moulds:
        hint = suggest(name, pantry.moulds, "moulds")
        if not pantry.unread:
            report.add(
                path,
                f"the mould {name!r} is not in the pantry",
                f"{hint}; moulds stand under moulds: in pantry.yaml",
            )
    return pantry.moulds.get(name)


def _bars(recipe: written.Recipe, mould: geometry.Mould | None) -> int | None:
    if mould is None:
        return None
    if mould.kind == "cavities":
        return mould.count
    cut = recipe.cut
    if cut is None:
        return None
    return geometry.bars(mould, cut.along.millimetres, cut.across.millimetres if cut.across else None)


def _sizes(recipe: written.Recipe, whole: Formula, pantry: Pantry, report: Reporter) -> tuple[Sized, ...]:
    """The other sizes offered, each the whole formula times one factor."""
    made: list[Sized] = []
    fill = recipe.oils.fill
    for index, size in enumerate(recipe.sizes):
        if size.oils is not None:
            factor = size.oils.grams / whole.base_grams
            made.append(Sized(size.oils.text.strip(), whole.scaled(factor), None))
            continue
        name = size.mould or ""
        mould = _known_mould(name, ("sizes", index), pantry, report)
        if mould is not None:
            to = size.to.fraction if size.to else fill.to.fraction if fill else FILL
            factor = geometry.millilitres(mould) * to / weigh(whole).loaf_ml
            made.append(Sized(name, whole.scaled(factor), _bars(recipe, mould)))
    return tuple(made)


def _filling(
    recipe: written.Recipe,
    at: Callable[[float], Formula],
    mould: geometry.Mould | None,
    report: Reporter,
) -> float | None:
    """Grams of oils that fill the mould."""
    fill = recipe.oils.fill
    if fill is None or mould is None:
        return None
    wanted = geometry.millilitres(mould) * fill.to.fraction
    grams = geometry.filled_by(lambda oils: weigh(at(oils)).loaf_ml, wanted)
    if grams is None:
        report.add(("oils", "fill"), "this mould has no room for any oil", "fill it further, or add less")
    return grams
