"""The last stages: a bar is covered and cures, or dries; a soft or liquid soap rests and is filled."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.cure_days import cure_days
from saponary.book.curing import WEEKLY_LOSS
from saponary.messages.message import Message, message, percent, short
from saponary.views.facts import days
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighSheet


def cover(bench: WeighSheet) -> Stage:
    lead = (message("work.cover.gloves"), message("work.cover.cure", days=_days(bench)))
    return Stage("cover", message("work.cover.title"), lead, steps=bench.steps("cover"))


def dry(bench: WeighSheet) -> Stage:
    """A cooked bar dries; a scale says when it has."""
    computed = bench.computed
    lead = (
        message("work.dry.gloves" if computed.model.by.weighs_lye else "work.dry.gloves-rebatch"),
        message(
            "work.dry.weigh" if computed.model.by.weighs_lye else "work.dry.weigh-rebatch",
            days=days(_days(bench)),
            share=percent(WEEKLY_LOSS, tight=True),
        ),
        message("work.dry.test"),
    )
    return Stage("dry", message("work.dry.title"), lead, steps=bench.steps("dry"))


def rest(bench: WeighSheet) -> Stage:
    lead = (
        message(f"work.rest.{bench.computed.model.by.makes}", days=days(_days(bench))),
        message("work.rest.test"),
    )
    return Stage("rest", message("work.rest.title"), lead, steps=bench.steps("rest"))


def fill(bench: WeighSheet) -> Stage:
    vessel = bench.computed.model.by.vessel
    lead = (message(f"work.fill.{vessel}"), *_filled(bench), message("work.fill.keeping"))
    return Stage("fill", message("work.fill.title"), lead, steps=bench.steps("fill"))


def _filled(bench: WeighSheet) -> Iterator[Message]:
    """How many jars or bottles there are, and what each holds."""
    found = bench.computed.resolved.containers
    if found is not None:
        yield message(
            f"work.fill.count.{bench.computed.model.by.vessel}",
            count=found.count,
            holds=short(found.millilitres, unit="ml"),
            each=bench.weight(found.grams),
            full=percent(found.full, 0),
        )


KEYS_BY_ID = {
    "work.rest.": ("soft", "liquid"),
    "work.fill.": ("jar", "bottle", "count.jar", "count.bottle"),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _days(bench: WeighSheet) -> int:
    return cure_days(bench.computed.model, bench.computed.settings).least
