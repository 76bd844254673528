"""A rebatch: soap of earlier lots is grated, and melted with a little liquid."""

from __future__ import annotations

from saponary.messages.message import message, percent
from saponary.views import names
from saponary.views.cooked_lots import last_cook
from saponary.views.stages.cook import late_lines
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighSheet, WeighTable


def grate(bench: WeighSheet) -> Stage:
    """The soap by lot. No lye is weighed, and that is said."""
    soaps = bench.computed.resolved.formula.remelted
    whole = sum(part.grams for part in soaps)
    lines = tuple(
        bench.line(
            f"addition {part.id}",
            names.addition(bench.shelf, part.id),
            part.grams,
            message("work.grate.lot", lot=given.lot),
            share=percent(part.grams / whole),
        )
        for part, given in zip(soaps, bench.computed.model.soap, strict=True)
    )
    total = bench.total("grated-soap", message("work.grate.all"), lines) if len(lines) > 1 else None
    return Stage(
        "grate",
        message("work.grate.title"),
        (message("work.grate.no-lye"), message("work.grate.lead")),
        (WeighTable("soap", message("work.grate.caption"), lines, total, shares=True),),
        steps=bench.steps("grate"),
    )


def melt(bench: WeighSheet) -> Stage:
    lines = tuple(late_lines(bench, "melt"))
    return Stage(
        "melt",
        message("work.melt.title"),
        (message("work.melt.lead"), message("work.cook.weigh")),
        (WeighTable("melted", message("work.melt.caption"), lines),) if lines else (),
        steps=bench.steps("melt"),
        close=(message("work.melt.done"), *last_cook(bench)),
    )
