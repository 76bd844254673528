"""The paste of a cooked potassium soap is thinned with water. Common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.views import names
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighLine, WeighSheet, WeighTable


def dilute(bench: WeighSheet) -> Stage:
    makes = bench.computed.model.by.makes
    lead = (message("work.dilute.lead"), message(f"work.dilute.{makes}"))
    lines = tuple(_lines(bench))
    tables = (WeighTable("dilution", message("work.dilute.caption"), lines),) if lines else ()
    return Stage("dilute", message("work.dilute.title"), lead, tables, steps=bench.steps("dilute"))


def _lines(bench: WeighSheet) -> Iterator[WeighLine]:
    """The water that thins the paste, where the recipe says to what, and the acid for what alkali is left."""
    water = bench.computed.catalogue.get("dilution-water")
    if water is not None and water.value > 0:
        yield bench.line(water.name, names.charge("plain-water"), water.value, message("work.dilute.less"))
    acid, wanted = bench.computed.catalogue.get("neutralising-acid"), bench.computed.resolved.aims.acid
    if acid is not None and wanted is not None and acid.value > 0:
        called = names.addition(bench.shelf, wanted.id)
        yield bench.line(acid.name, called, acid.value, message("work.dilute.acid"))


KEYS_BY_ID = {"work.dilute.": ("soft", "liquid")}
"""Keys that are put together here: what they start with, and the ids that may follow."""
