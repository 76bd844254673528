"""The cook, and what comes into the pot when it is over. Times and signs: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from saponary.lye.formula import Oil
from saponary.messages.message import Message, message, percent
from saponary.schema.methods.method import Makes
from saponary.views import names
from saponary.views.cooked_lots import last_cook
from saponary.views.stages.stage import Stage, kept_at
from saponary.views.weigh_sheet import WeighLine, WeighSheet, WeighTable


def cook(bench: WeighSheet) -> Stage:
    warm = bench.computed.model.temperatures
    lead = (
        message("work.cook.pot"),
        *kept_at(warm.cook if warm else None, "work.cook.at"),
        message(f"work.cook.heat.{bench.computed.model.by.makes}"),
        message("work.cook.weigh"),
    )
    close = (message("work.cook.done"), *last_cook(bench))
    return Stage("cook", message("work.cook.title"), lead, steps=bench.steps("cook"), close=close)


KEYS_BY_ID = {"work.cook.heat.": get_args(Makes)}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def after_cook(bench: WeighSheet) -> Stage:
    """What meets no lye: oils that stay oils, and whatever else is for the whole batch."""
    formula = bench.computed.resolved.formula
    oils = tuple(_oil(bench, oil) for oil in formula.after_cook)
    lines = (*oils, *late_lines(bench, "after-cook"))
    lead = (message("work.after-cook.lead" if formula.weighs_lye else "work.after-cook.lead-rebatch"),)
    return Stage(
        "after-cook",
        message("work.after-cook.title" if formula.weighs_lye else "work.after-cook.title-rebatch"),
        lead if lines else (),
        (WeighTable("after-cook", message("work.after-cook.caption"), lines),) if lines else (),
        steps=bench.steps("after-cook"),
        close=tuple(_superfat(bench)) if oils else (),
    )


def late_lines(bench: WeighSheet, stage: str) -> Iterator[WeighLine]:
    """Liquids and additions for the whole batch that go in at a stage; of soap, none."""
    yield from (
        bench.liquid(part)
        for part in bench.computed.resolved.formula.liquids
        if part.stage == stage and part.portion is None
    )
    yield from (
        bench.addition(part, item)
        for part, item in bench.written_additions()
        if part.stage == stage and part.portion is None and not part.remelted
    )


def _oil(bench: WeighSheet, oil: Oil) -> WeighLine:
    return bench.line(
        f"after-cook {oil.id}",
        names.oil(bench.shelf, oil.id),
        oil.grams,
        *bench.infused(oil),
        message("work.after-cook.oil"),
    )


def _superfat(bench: WeighSheet) -> Iterator[Message]:
    """The superfat of the cook, and what the oils after it make of it."""
    figures = bench.computed.figures
    if figures.superfat_known:
        yield message(
            "work.after-cook.superfat",
            cooked=percent(figures.superfat),
            after=percent(figures.late.superfat),
            in_all=percent(figures.late.superfat_in_all),
        )
