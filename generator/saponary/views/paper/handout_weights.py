"""The weigh sheet of a class: what a student and a bench put on the scale, and what it comes to."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from saponary.book.classes import ClassPlan
from saponary.lye.lesson import Weighing, weighings
from saponary.messages.message import Message, Number, Value, message, percent
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import Scale
from saponary.views import names
from saponary.views.panel import span
from saponary.views.paper.handout_bench import ClassBench
from saponary.views.uptake import unknown_uptake


class ClassWeight(NamedTuple):
    """One thing to weigh: for a student, and for a bench; None where it is to be worked out."""

    id: str
    what: Value
    student: Number | None
    bench: Number | None


class Superfat(NamedTuple):
    """The superfat that the weights of a column really give, and its band."""

    who: Message
    as_weighed: Number
    likely: Message
    worst: Message


class ClassWeights(NamedTuple):
    """The table of a recipe. `nominal` is None, and `superfats` are none, where a student works them out."""

    title: str
    bench: Message
    lines: tuple[ClassWeight, ...]
    nominal: Number | None
    superfats: tuple[Superfat, ...]
    last_bench: Message | None
    unknown: Message | None = None
    """Why there is no superfat to give, even for a student to work out."""


def on_scale(scale: Scale) -> Callable[[float], float]:
    """Grams as they lie on the scale."""
    return lambda grams: scale.weigh(grams).grams


def line_id(kind: str, name: str) -> str:
    """The id of a weighing's line in the work order, which is the name of its figure."""
    if kind == "water":
        return "plain-water"
    return name if kind == "alkali" else f"{kind} {name}"


def called(kind: str, name: str, shelf: Pantry) -> Value:
    """What a weighing is called."""
    if kind in ("alkali", "water"):
        return names.charge(line_id(kind, name))
    spoken = {"oil": names.oil, "liquid": names.liquid}.get(kind, names.addition)
    return spoken(shelf, name)


def on_the_scale(bench: ClassBench) -> tuple[Weighing, ...]:
    return weighings(bench.computed.resolved.formula, bench.computed.figures, on_scale(bench.scale))


def bench_name(plan: ClassPlan) -> Message:
    return message("handout.bench-of", count=min(plan.per_bench, plan.students))


def class_weights(
    plan: ClassPlan, title: str, one: ClassBench, together: ClassBench, bare: bool
) -> ClassWeights:
    """`together` is a whole bench; `bare` where a student works out the superfat."""
    of_bench = {(w.kind, w.id): w.grams for w in on_the_scale(together)}
    lines: list[ClassWeight] = []
    for each in on_the_scale(one):
        name = line_id(each.kind, each.id)
        bare_line = name in one.hidden
        lines.append(
            ClassWeight(
                name,
                called(each.kind, each.id, one.shelf),
                None if bare_line else _plain(one, each.grams),
                None if bare_line else _plain(one, of_bench[each.kind, each.id]),
            )
        )
    last = None
    if plan.benches > 1 and plan.last_bench < plan.per_bench:
        last = message("handout.last-bench", count=plan.last_bench)
    who, unknown = message("handout.each-student"), unknown_uptake(one.computed)
    bare = bare or unknown is not None
    return ClassWeights(
        title=title,
        bench=bench_name(plan),
        lines=tuple(lines),
        nominal=None if bare else percent(one.computed.figures.superfat),
        superfats=() if bare else (_superfat(who, one), _superfat(bench_name(plan), together)),
        last_bench=last,
        unknown=unknown,
    )


def _plain(bench: ClassBench, grams: float) -> Number:
    """The weight without its unit, which stands at the head of the column."""
    weighed = bench.scale.weigh(grams)
    return Number(weighed.shown, weighed.decimals)


def _superfat(who: Message, bench: ClassBench) -> Superfat:
    figures = bench.computed.figures
    likely, worst = figures.bands.likely, figures.bands.worst
    return Superfat(
        who, percent(figures.superfat_as_weighed), span(likely.low, likely.high), span(worst.low, worst.high)
    )
