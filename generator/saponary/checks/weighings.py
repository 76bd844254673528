"""weighings: a bar's weights that cannot be, or that do not go with the others."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.curing import BarCure, cures
from saponary.book.records import BatchRecord
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.lye.cure.fit import CureFit
from saponary.lye.fingerprint import matches
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.tree import Path

MOST_GAIN = 0.02
"""A bar in damp air takes up a little: common practice, no source."""
MOST_LOSS = 0.35
"""More than all the water of an ordinary batter: common practice, no source."""


UNEVEN = 2.0
"""A bar cut by eye may be so many times heavier or lighter than its fellows: common practice, no source."""


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        for bar in cures(record.batch):
            yield from _size(record, bar, computed)
            yield from _bar(record, bar, computed)


def _size(record: BatchRecord, bar: BarCure, computed: Computed) -> Iterator[Finding]:
    """A bar holds no more than was poured; one of a batch poured to today's formula, about what the formula gives."""
    day, grams = bar.weighings[0]
    path = record.day_path(_home(bar), day)
    told = f"on day {day} a bar of lot {record.batch.lot} weighs {computed.weight(grams)}"
    weighed = [q.grams for q in record.batch.as_weighed.values() if q is not None]
    most = max(computed.figures.batter, sum(weighed))
    cut = computed.catalogue.get("bar")
    if grams > most and _of_today(record, computed):
        message = f"{told}, more than the {computed.weight(most, 0)} that were poured"
        yield record.finding(RULE.name, path, message, "write what one bar weighs", "error")
    elif (
        cut is not None
        and _of_today(record, computed)
        and not cut.value / UNEVEN <= grams <= cut.value * UNEVEN
    ):
        message = f"{told}, where the recipe gives bars of {cut.text()}"
        about = _about(record, bar, day)
        yield record.finding(RULE.name, path, message, _SLIP, "warning", about=about)


def _of_today(record: BatchRecord, computed: Computed) -> bool:
    formula = record.batch.formula
    return formula is None or matches(formula, computed.fingerprint)


def _home(bar: BarCure) -> Path:
    return ("bars", bar.name) if bar.name else ("weighed",)


def _about(record: BatchRecord, bar: BarCure, day: int) -> str:
    return " ".join(part for part in (record.batch.lot, bar.name, f"day {day}") if part)


_SLIP = "look for a typing mistake, another bar or another scale"


def _bar(record: BatchRecord, bar: BarCure, computed: Computed) -> Iterator[Finding]:
    first_day, first = bar.weighings[0]
    doubted = {suspect.day for suspect in bar.fit.suspects} if isinstance(bar.fit, CureFit) else set[float]()
    for day, grams in bar.weighings[1:]:
        if first > 0 and not (1 - MOST_LOSS) * first <= grams <= (1 + MOST_GAIN) * first:
            change = grams / first - 1
            moved = f"{show(100 * abs(change), 0)} % {'more' if change > 0 else 'less'}"
            message = f"on day {day} the bar weighs {computed.weight(grams)}, {moved} than on day {first_day}"
        elif day in doubted:
            message = f"{computed.weight(grams)} on day {day} does not go with the other weighings, and is left out of the curve"
        else:
            continue
        yield record.finding(
            RULE.name,
            record.day_path(_home(bar), day),
            f"lot {record.batch.lot}: {message}",
            _SLIP,
            "warning",
            about=_about(record, bar, day),
        )


RULE = Rule(
    "weighings",
    "sense",
    "A bar loses water as it cures, first quickly and later hardly at all. A weight that rises, falls "
    "by more than the water there was, or lies off the curve is probably a typing mistake (limits: "
    "common practice, no source).",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
    each="weighing",
)
