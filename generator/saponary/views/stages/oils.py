"""The oils, one pot or several, and the way to trace."""

from __future__ import annotations

from saponary.messages.message import Listed, Message, message, percent
from saponary.views.stages.lye import separate_pots
from saponary.views.stages.stage import Stage, kept_at
from saponary.views.weigh_sheet import WeighSheet, WeighTable


def oils(bench: WeighSheet) -> Stage:
    apart = separate_pots(bench)
    tables = tuple(
        bench.oils(
            f"oils {pot.id}", message("work.oils.of-pot", pot=pot.name), pot.oils, message("work.oils.in-pot")
        )
        for pot in apart
    )
    if not apart:
        every = bench.computed.resolved.formula.oils
        tables = (bench.oils("oils", message("work.oils.caption"), every, message("work.oils.all")),)
    lead = (message("work.oils.lead"),)
    warm = bench.computed.model.temperatures
    close = kept_at(warm.oils if warm else None, "work.oils.at")
    return Stage("oils", message("work.oils.title"), lead, tables, steps=bench.steps("oils"), close=close)


def trace(bench: WeighSheet) -> Stage:
    apart = separate_pots(bench)
    formula = bench.computed.resolved.formula
    liquids = [
        (q.stage, bench.liquid(q, _when(q.stage)))
        for q in formula.liquids
        if q.portion is None and q.stage in ("oils", "trace")
    ]
    dry = [
        (a.stage, bench.addition(a, item, _when(a.stage)))
        for a, item in bench.written_additions()
        if a.portion is None and a.stage in ("oils", "trace")
    ]
    both = [*liquids, *dry]
    lines = tuple(line for stage, line in both if stage == "oils") + tuple(
        line for stage, line in both if stage != "oils"
    )
    lead = [message("work.trace.lead")]
    if apart and lines:
        shares = Listed(
            tuple(message("work.trace.share-to", share=percent(pot.share), pot=pot.name) for pot in apart)
        )
        lead.append(message("work.trace.for-all", shares=shares))
    return Stage(
        "trace",
        message("work.trace.title"),
        tuple(lead),
        (WeighTable("batter", message("work.trace.caption"), lines),) if lines else (),
        steps=bench.steps("trace"),
    )


def _when(stage: str) -> Message:
    return message("work.trace.before-lye") if stage == "oils" else message("work.trace.at")
