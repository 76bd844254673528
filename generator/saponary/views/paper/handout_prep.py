"""What the teacher makes ready: one shopping list, the lye of each recipe, moulds and oils a bench."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from saponary.book.classes import ClassPlan
from saponary.book.computed import Computed
from saponary.book.pour_uses import pour_uses
from saponary.lye import lesson
from saponary.lye.density import lye_millilitres
from saponary.lye.lesson import Purchase
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import Scale, percent
from saponary.quantity.rounding import show, to_step
from saponary.views import names
from saponary.views.paper.handout_bench import at_class_size, class_bench, stages
from saponary.views.paper.handout_weights import called, on_the_scale
from saponary.views.pouring import mould_words
from saponary.views.weigh_sheet import Table

_BIG = 10_000.0
_SHARPEST = 5.0
"""Degrees to which an estimate of heat is told."""


@dataclass(frozen=True)
class Buy:
    """A line of the shopping list."""

    what: str
    needed: str
    wanted: str
    pack: str
    packs: str
    left: str


@dataclass(frozen=True)
class Shopping:
    caption: str
    spare: str
    lines: tuple[Buy, ...]
    dry: str


@dataclass(frozen=True)
class Master:
    """The lye of one recipe for the whole class; `apart` says why it is not made in one jug."""

    title: str
    apart: str
    table: Table
    facts: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Ready:
    """What stands at each bench for one recipe."""

    title: str
    moulds: str
    oils: tuple[Table, ...]


@dataclass(frozen=True)
class Preparation:
    shopping: Shopping
    masters: tuple[Master, ...]
    benches: tuple[Ready, ...]
    unit: str
    heat_source: str


HEAT_SOURCE = (
    "The rise is worked out from integral heats of solution (from memory: Felder and Rousseau, table B.11) and a specific heat of "
    "3.5 J/(g·K) (from memory), with no heat lost; an open jug stays cooler. Volumes are by the densities of lye at 20 °C "
    "(second-hand: International Critical Tables)."
)


def preparation(plan: ClassPlan, recipes: Sequence[tuple[str, Computed]], scale: Scale) -> Preparation:
    """`recipes` are titles and recipes as written, in the order of the class."""
    return Preparation(
        shopping=shopping(plan, [computed for _, computed in recipes], scale),
        masters=tuple(_master(plan, title, computed, scale) for title, computed in recipes),
        benches=tuple(_ready(plan, title, computed, scale) for title, computed in recipes),
        unit=scale.unit,
        heat_source=HEAT_SOURCE,
    )


def purchases(plan: ClassPlan, recipes: Sequence[Computed], scale: Scale) -> tuple[Purchase, ...]:
    """Over all students and recipes, from the weights as they lie on each student's scale."""
    made = [one for computed in recipes if (one := at_class_size(computed, plan)) is not None]
    batches = [(on_the_scale(class_bench(one, scale, answers=True)), plan.students) for one in made]
    packs = {name: pack.grams for name, pack in plan.packs.items()}
    return lesson.shopping(batches, plan.spare_share, packs)


def shopping(plan: ClassPlan, recipes: Sequence[Computed], scale: Scale) -> Shopping:
    shelf = recipes[0].pantry
    dry = dict.fromkeys(name for computed in recipes for name in unweighed(computed))
    many = "one student" if plan.students == 1 else f"{plan.students} students"
    return Shopping(
        caption=f"To buy for {many}, all recipes together",
        spare=percent(plan.spare_share, 0) if plan.spare_share else "",
        lines=tuple(_buy(each, shelf) for each in purchases(plan, recipes, scale)),
        dry=names.listed(list(dry)),
    )


def unweighed(computed: Computed) -> list[str]:
    """What the pour dusts, sets in or strews without a weight."""
    unseen = dict.fromkeys(use.what for use in pour_uses(computed) if not use.weighed)
    return [names.inside(names.addition(computed.pantry, name)) for name in unseen]


def _buy(each: Purchase, shelf: Pantry) -> Buy:
    return Buy(
        called(each.kind, each.id, shelf),
        _much(each.needed),
        _much(each.wanted),
        _much(each.pack) if each.pack else "by weight",
        str(each.packs) if each.pack else "",
        _much(each.left) if each.pack else "",
    )


def _much(grams: float) -> str:
    """A weight to buy: kilograms where there are many grams."""
    if grams >= _BIG:
        return f"{show(grams / 1000.0, 2)} kg"
    return f"{show(grams, 0 if grams >= 20 or float(int(grams)) == grams else 1)} g"


def _master(plan: ClassPlan, title: str, computed: Computed, scale: Scale) -> Master:
    """The lye of all students with the spare, in the order in which it is put together."""
    count = plan.students * (1.0 + plan.spare_share)
    whole, one = at_class_size(computed, plan, count), at_class_size(computed, plan)
    assert whole is not None and one is not None
    jugs = [next(s for s in stages(class_bench(c, scale, answers=True), frozenset()) if s.id == "lye").tables[0]
            for c in (whole, one)]  # fmt: skip
    share = jugs[1].total or jugs[1].lines[-1]
    figures, alkali = whole.figures, whole.resolved.formula.alkali
    wet = [q.id for q in whole.resolved.formula.liquids if q.stage == "lye"]
    warm = lesson.rise(figures.weights, alkali, figures.water.dissolving)
    degrees = show(to_step(warm.degrees, _SHARPEST), 0)
    millilitres = lye_millilitres(figures.weights, figures.water.dissolving)
    held = lesson.container(figures.weights, figures.water.dissolving)
    facts = (
        ("Strength as the alkali dissolves", percent(figures.lye_strength_dissolved)),
        ("Volume, alkali and its water", f"about {show(to_step(millilitres, 10.0), 0)} ml"),
        ("Jug that holds at least", f"{show(held / 1000.0, 1)} l"),
        ("It warms by", f"{'at most' if warm.at_most else 'about'} {degrees} °C"),
        ("Each student takes", f"{share.main} {scale.unit} of it"),
    )
    apart = ""
    if wet:
        liquids = names.listed([names.inside(names.liquid(computed.pantry, name)) for name in wet])
        apart = f"It holds {liquids}: make it bench by bench in small cold jugs, and not in one."
    return Master(title, apart, jugs[0], facts)


def _ready(plan: ClassPlan, title: str, computed: Computed, scale: Scale) -> Ready:
    at_bench = min(plan.bench, plan.students)
    together = at_class_size(computed, plan, at_bench)
    assert together is not None
    oils = next(s for s in stages(class_bench(together, scale, answers=True), frozenset()) if s.id == "oils")
    built = together.resolved
    if built.mould is None:
        moulds = f"{at_bench} × a mould that holds {show(together.figures.loaf_ml / at_bench, 0)} ml with head room"
    else:
        moulds = f"{at_bench} × {mould_words(built.mould_name, built.mould)}"
    return Ready(title, moulds, oils.tables)
