"""sizes: another size the recipe is offered in that cannot be weighed true."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import BOTH
from saponary.checks.rule import Rule
from saponary.lye.figures import weigh
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding

_DRIFT = 0.01


def check(computed: Computed) -> Iterator[Finding]:
    for index, size in enumerate(computed.resolved.sizes):
        figures = weigh(size.formula)
        weighed = figures.superfat_as_weighed
        if weighed < 0 or abs(weighed - figures.superfat) > _DRIFT:
            yield computed.finding(
                RULE.name,
                ("sizes", index),
                f"at the size {size.name} the superfat as weighed is {show(100 * weighed, 1)} %",
                "offer a larger size, or set a finer scale-step in book.yaml",
                "error" if weighed < 0 else "warning",
            )


RULE = Rule(
    "sizes",
    "danger",
    "A page lists only sizes that can be weighed on the book's scale and keep their superfat.",
    recipe=check,
    kinds=BOTH,
)
