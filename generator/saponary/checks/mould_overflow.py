"""mould-overflow: more batter than the mould holds."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.mould_fill import filled
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding

_NOISE = 1e-6


def check(computed: Computed) -> Iterator[Finding]:
    for one in filled(computed):
        if one.batter > one.room * (1.0 + _NOISE):
            hint = f"{one.fits}: make less, or take a mould that holds {show(one.batter, 0)} ml and leaves room at the top"
            yield computed.finding(RULE.name, one.path, f"{one.told}, which runs over", hint)


RULE = Rule(
    "mould-overflow",
    "danger",
    "Batter that runs over the rim of a mould is caustic and hot.",
    recipe=check,
)
