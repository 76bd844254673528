"""weighings: a bar's weights that cannot be, or that do not go with the others."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.curing import BarCure, cures
from saponary.book.records import BatchRecord
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.cure.fit import CureFit
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding

MOST_GAIN = 0.02
"""A bar in damp air takes up a little: common practice, no source."""
MOST_LOSS = 0.35
"""More than all the water of an ordinary batter: common practice, no source."""


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        for bar in cures(record.batch):
            yield from _bar(record, bar)


def _bar(record: BatchRecord, bar: BarCure) -> Iterator[Finding]:
    home = ("bars", bar.name) if bar.name else ("weighed",)
    first_day, first = bar.weighings[0]
    doubted = {suspect.day for suspect in bar.fit.suspects} if isinstance(bar.fit, CureFit) else set[float]()
    for day, grams in bar.weighings[1:]:
        if first > 0 and not (1 - MOST_LOSS) * first <= grams <= (1 + MOST_GAIN) * first:
            change = grams / first - 1
            moved = f"{show(100 * abs(change), 0)} % {'more' if change > 0 else 'less'}"
            message = f"on day {day} the bar weighs {show(grams, 1)} g, {moved} than on day {first_day}"
        elif day in doubted:
            message = f"{show(grams, 1)} g on day {day} does not go with the other weighings, and is left out of the curve"
        else:
            continue
        hint = "look for a typing mistake, another bar or another scale"
        yield record.finding(
            RULE.name,
            record.day_path(home, day),
            f"lot {record.batch.lot}: {message}",
            hint,
            "warning",
            about=" ".join(part for part in (record.batch.lot, bar.name, f"day {day}") if part),
        )


RULE = Rule(
    "weighings",
    "sense",
    "A bar loses water as it cures, quickly at first and then hardly at all. A weight that goes up, falls by more "
    "than the water there was, or stands off the curve is mostly a typing mistake (limits: common practice, no source).",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="weighing",
)
