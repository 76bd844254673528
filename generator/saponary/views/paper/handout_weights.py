"""The weigh sheet of a class: what a student and a bench put on the scale, and what it comes to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from saponary.book.classes import ClassPlan
from saponary.lye.lesson import Weighing, weighings
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import Scale, percent
from saponary.views import names
from saponary.views.paper.handout_bench import ClassBench

_PLAIN = {
    "sodium-hydroxide": "Sodium hydroxide",
    "potassium-hydroxide": "Potassium hydroxide",
    "water": "Plain water",
}


@dataclass(frozen=True)
class Row:
    """One thing to weigh: for a student, and for a bench; empty where it is to be worked out."""

    what: str
    student: str
    bench: str


@dataclass(frozen=True)
class Held:
    """The superfat that the weights of a column really give, and its band."""

    who: str
    as_weighed: str
    likely: str
    worst: str


@dataclass(frozen=True)
class WeighSheet:
    caption: str
    bench_head: str
    rows: tuple[Row, ...]
    nominal: str
    held: tuple[Held, ...]
    last_bench: str


def on_scale(scale: Scale) -> Callable[[float], float]:
    """Grams as they lie on the scale."""
    return lambda grams: scale.weigh(grams).grams


def called(each_kind: str, name: str, shelf: Pantry) -> str:
    """What a weighing is called."""
    if name in _PLAIN and each_kind in ("alkali", "water"):
        return _PLAIN[name]
    spoken = {"oil": names.oil, "liquid": names.liquid}.get(each_kind, names.addition)
    return spoken(shelf, name)


def on_the_scale(bench: ClassBench) -> tuple[Weighing, ...]:
    return weighings(bench.computed.resolved.formula, bench.computed.figures, on_scale(bench.scale))


def bench_name(plan: ClassPlan) -> str:
    return "Bench of one" if plan.bench == 1 else f"Bench of {min(plan.bench, plan.students)}"


def weigh_sheet(plan: ClassPlan, title: str, one: ClassBench, together: ClassBench, bare: bool) -> WeighSheet:
    """`together` is a whole bench; `bare` where a student works out the superfat."""
    of_bench = {(w.kind, w.id): w.grams for w in on_the_scale(together)}
    rows = []
    for each in on_the_scale(one):
        what = called(each.kind, each.id, one.shelf)
        hidden = what in one.hidden
        rows.append(
            Row(
                what,
                "" if hidden else one.scale.weigh(each.grams).main,
                "" if hidden else one.scale.weigh(of_bench[each.kind, each.id]).main,
            )
        )
    last = ""
    if plan.benches > 1 and plan.last_bench < plan.bench:
        count = "one student" if plan.last_bench == 1 else f"{plan.last_bench} students"
        last = f"The last bench has {count}: there each takes the weights of one student."
    return WeighSheet(
        caption=f"{title}: what goes on the scale",
        bench_head=bench_name(plan),
        rows=tuple(rows),
        nominal="" if bare else percent(one.computed.figures.superfat),
        held=() if bare else (_held("Each student", one), _held(bench_name(plan), together)),
        last_bench=last,
    )


def _held(who: str, bench: ClassBench) -> Held:
    figures = bench.computed.figures
    bands = figures.bands
    return Held(
        who,
        percent(figures.superfat_as_weighed),
        f"{percent(bands.likely.low).removesuffix(' %')} to {percent(bands.likely.high)}",
        f"{percent(bands.worst.low).removesuffix(' %')} to {percent(bands.worst.high)}",
    )
