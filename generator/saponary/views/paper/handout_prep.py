"""What the teacher makes ready: one shopping list, the lye of each recipe, moulds and oils a bench."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from saponary.book.classes import ClassPlan
from saponary.book.published import Published
from saponary.lye import lesson
from saponary.lye.density import lye_millilitres
from saponary.lye.lesson import Purchase
from saponary.messages.message import Listed, Message, Number, Value, Within, message, percent
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import Scale
from saponary.quantity.rounding import to_step
from saponary.views import names
from saponary.views.paper.handout_bench import at_class_size, class_bench, stages
from saponary.views.paper.handout_weights import called, on_the_scale
from saponary.views.pouring import mould_words
from saponary.views.stages.before import unweighed
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighLine, WeighTable

_BIG = 10_000.0
_SHARPEST = 5.0
"""Degrees to which an estimate of heat is told."""


class Buy(NamedTuple):
    """A line of the shopping list. Without a pack it is bought by weight, and nothing is left of it."""

    what: Value
    needed: Number
    wanted: Number
    pack: Number | None
    packs: int | None
    left: Number | None


class Shopping(NamedTuple):
    """For so many students, with a spare share where the class has one; `dry` is at hand, not weighed."""

    students: int
    spare: Number | None
    lines: tuple[Buy, ...]
    dry: Listed | None


class Master(NamedTuple):
    """The lye of one recipe for the whole class. `apart` are the liquids for whose sake it is not
    made in one jug; `facts` are pairs of a label and its text.
    """

    title: str
    apart: Listed | None
    table: WeighTable
    facts: tuple[tuple[Message, Value], ...]


class Ready(NamedTuple):
    """What stands at each bench for one recipe."""

    title: str
    moulds: Message
    oils: tuple[WeighTable, ...]


class Preparation(NamedTuple):
    shopping: Shopping
    masters: tuple[Master, ...]
    benches: tuple[Ready, ...]
    unit: str


def preparation(plan: ClassPlan, recipes: Sequence[tuple[str, Published]], scale: Scale) -> Preparation:
    """`recipes` are titles and recipes as written, in the order of the class."""
    return Preparation(
        shopping=shopping(plan, [computed for _, computed in recipes], scale),
        masters=tuple(
            _master(plan, title, computed, scale)
            for title, computed in recipes
            if computed.resolved.formula.weighs_lye
        ),
        benches=tuple(_ready(plan, title, computed, scale) for title, computed in recipes),
        unit=scale.unit,
    )


def purchases(plan: ClassPlan, recipes: Sequence[Published], scale: Scale) -> tuple[Purchase, ...]:
    """Over all students and recipes, from the weights as they lie on each student's scale."""
    made = [one for computed in recipes if (one := at_class_size(computed, plan)) is not None]
    batches = [(on_the_scale(class_bench(one, scale, answers=True)), plan.students) for one in made]
    packs = {name: pack.grams for name, pack in plan.packs.items()}
    return lesson.shopping(batches, plan.spare_share, packs)


def shopping(plan: ClassPlan, recipes: Sequence[Published], scale: Scale) -> Shopping:
    shelf = recipes[0].pantry
    dry = dict.fromkeys(thing for computed in recipes for thing in unweighed(computed))
    return Shopping(
        students=plan.students,
        spare=percent(plan.spare_share, 0) if plan.spare_share else None,
        lines=tuple(_buy(each, shelf) for each in purchases(plan, recipes, scale)),
        dry=Listed(tuple(dry)) if dry else None,
    )


def _buy(each: Purchase, shelf: Pantry) -> Buy:
    return Buy(
        called(each.kind, each.id, shelf),
        _much(each.needed),
        _much(each.wanted),
        _much(each.pack) if each.pack else None,
        each.packs if each.pack else None,
        _much(each.left) if each.pack else None,
    )


def _much(grams: float) -> Number:
    """A weight to buy: kilograms where there are many grams."""
    if grams >= _BIG:
        return Number(grams / 1000.0, 2, "kg")
    return Number(grams, 0 if grams >= 20 or float(int(grams)) == grams else 1, "g")


def _master(plan: ClassPlan, title: str, computed: Published, scale: Scale) -> Master:
    """The lye of all students with the spare, in the order in which it is put together."""
    count = plan.students * (1.0 + plan.spare_share)
    whole, one = at_class_size(computed, plan, count), at_class_size(computed, plan)
    assert whole is not None and one is not None
    jug, portion = (_stage(c, scale, "lye").tables[0] for c in (whole, one))
    share = portion.total or portion.lines[-1]
    wet = tuple(
        Within(names.liquid(computed.pantry, q.id))
        for q in whole.resolved.formula.liquids
        if q.stage == "lye"
    )
    facts = (
        *_lye_facts(whole),
        (message("prep.each-takes"), message("prep.of-it", weight=_with_unit(share, scale))),
    )
    return Master(title, Listed(wet) if wet else None, jug, facts)


def _lye_facts(whole: Published) -> tuple[tuple[Message, Value], ...]:
    figures, alkali = whole.figures, whole.resolved.formula.alkali
    warm = lesson.rise(figures.weights, alkali, figures.water.dissolving)
    degrees = Number(to_step(warm.degrees, _SHARPEST), 0, "°C")
    millilitres = Number(to_step(lye_millilitres(figures.weights, figures.water.dissolving), 10.0), 0, "ml")
    held = Number(lesson.container(figures.weights, figures.water.dissolving) / 1000.0, 1, "l")
    return (
        (message("prep.strength"), percent(figures.lye_strength_dissolved)),
        (message("prep.volume"), message("prep.about", amount=millilitres)),
        (message("prep.jug"), held),
        (message("prep.warms"), message("prep.at-most" if warm.at_most else "prep.about", amount=degrees)),
    )


def _stage(computed: Published, scale: Scale, name: str) -> Stage:
    """A stage of the work order, with all its weights."""
    order = stages(class_bench(computed, scale, answers=True), frozenset())
    return next(stage for stage in order if stage.id == name)


def _with_unit(line: WeighLine, scale: Scale) -> Value:
    return replace(line.main, unit=scale.unit) if line.main is not None else ""


def _ready(plan: ClassPlan, title: str, computed: Published, scale: Scale) -> Ready:
    at_bench = min(plan.per_bench, plan.students)
    together = at_class_size(computed, plan, at_bench)
    assert together is not None
    built = together.resolved
    if built.mould is None:
        held = Number(together.figures.loaf_ml / at_bench, 0, "ml")
        moulds = message("prep.any-mould", number=at_bench, held=held)
    else:
        moulds = message("prep.moulds", number=at_bench, mould=mould_words(built.mould_name, built.mould))
    weighed = "oils" if built.formula.weighs_lye else "grate"
    return Ready(title, moulds, _stage(together, scale, weighed).tables)
