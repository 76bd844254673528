"""superfat: more alkali than the oils can take, nominally, as weighed, or by nature's spread."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.aims import excess_is_taken
from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding


def _percent(value: float) -> str:
    return f"{show(100 * value, 1)} %"


def check(computed: Computed) -> Iterator[Finding]:
    f = computed.figures
    if excess_is_taken(computed.resolved.aims, computed.model, f):
        return
    if f.superfat < 0:
        yield computed.finding(
            RULE.name, ("superfat",), f"the superfat is {_percent(f.superfat)}: free lye stays in the bar",
            "raise the superfat to 3 % or more",
        )  # fmt: skip
    elif f.superfat_as_weighed < 0:
        yield computed.finding(
            RULE.name, ("superfat",), f"as weighed on this scale the superfat is {_percent(f.superfat_as_weighed)}",
            "make a larger batch, raise the superfat, or use a finer scale",
        )  # fmt: skip


RULE = Rule(
    "superfat",
    "danger",
    "The superfat is the share of the oils' demand for alkali that is left unmet. Below zero, "
    "alkali is left over and the bar burns skin.",
    recipe=check,
)
