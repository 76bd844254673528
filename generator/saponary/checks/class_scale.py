"""class-scale: a batch for one student that the scale cannot hold."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.classes import made_by_a_student
from saponary.book.late import Seen
from saponary.checks.listed import BOTH
from saponary.checks.rule import ProofContext, Rule
from saponary.lye.figures import weigh
from saponary.quantity.numbers import step_text
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.reporter import Reporter

FAR = 0.01
"""Superfat that rounding to the scale may move before it is remarked on: common practice, no source."""


def check(context: ProofContext) -> Iterator[Finding]:
    built = Seen(context.recipes, lambda one: one.resolved)
    units = context.book.settings.units
    for read in context.book.classes:
        if read.plan is None:
            continue
        report = Reporter(read.tree, read.file, RULE.name)
        path = ("oils",) if read.plan.oils is not None else ("mould",)
        for slug, one in made_by_a_student(read.plan, built, context.book.pantry).items():
            figures = weigh(one.formula)
            off = figures.superfat_as_weighed - figures.superfat
            if figures.superfat_as_weighed >= 0 and abs(off) <= FAR:
                continue
            message = (
                f"at this size {slug} has a superfat of {show(100 * figures.superfat_as_weighed, 1)} % once its "
                f"weights are rounded to {step_text(one.formula.scale_step, units)}, instead of {show(100 * figures.superfat, 1)} %"
            )
            caustic = figures.superfat_as_weighed < 0 <= figures.superfat
            hint = "make more of it, or use a finer scale"
            report.add(path, message, hint, "error" if caustic else "warning")
        yield from report.findings


RULE = Rule(
    "class-scale",
    "danger",
    "A student makes a small batch. With its weights rounded to the scale, the superfat must still be "
    "the one that was meant.",
    book=check,
    kinds=BOTH,
)
