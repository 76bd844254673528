"""scale: the scale's step is too coarse for the weights of this batch."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.smallest import DRIFT, STEPS, for_superfat
from saponary.quantity.numbers import OUNCE, step_text
from saponary.quantity.rounding import show, to_step
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    f, step = computed.figures, computed.resolved.formula.scale_step
    shown = step_text(step, computed.settings.units)
    if f.superfat >= 0 and f.superfat_as_weighed >= 0 and abs(f.superfat_as_weighed - f.superfat) > DRIFT:
        yield computed.finding(
            RULE.name, ("oils",), f"weighed to {shown} the superfat is {show(100 * f.superfat_as_weighed, 1)} %, not {show(100 * f.superfat, 1)} %",
            f"weigh {_least(for_superfat(computed.resolved.formula, f), computed)} of oils or more, or set a finer scale-step in book.yaml", "warning", key=True, about="superfat",
        )  # fmt: skip
    for oil in computed.resolved.formula.oils:
        if oil.grams > 0 and to_step(oil.grams, step) == 0:
            yield computed.finding(
                RULE.name, ("oils", "parts", oil.id), f"{computed.weight(oil.grams, 2)} of {oil.id} weighs nothing on a scale of {shown}",
                f"leave it out, or weigh {_least(f.oils * STEPS * step / oil.grams, computed)} of oils or more", "warning", key=True, about=oil.id,
            )  # fmt: skip


def _least(oils: float, computed: Computed) -> str:
    """The smallest batch that will do, a little above."""
    return computed.weight(ceil(oils) if computed.settings.units == "g" else ceil(oils / OUNCE) * OUNCE, 0)


RULE = Rule(
    "scale",
    "sense",
    "Every weight is rounded to the step of your scale. Where that moves the superfat by more than one "
    "percentage point, the batch is too small for the scale.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="weight",
)
