"""What the pots of a recipe's lots lost in their cooks, as its page and its work order tell it."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.cured import cured_water
from saponary.book.published import Published
from saponary.lye.cook import Cooked, cooked
from saponary.lye.fingerprint import matches
from saponary.messages.message import Message, Value, grams, message, percent
from saponary.schema.batch import Batch
from saponary.views.weigh_sheet import WeighSheet


def cook_of(batch: Batch, computed: Published) -> Cooked | None:
    """A lot's cook by its own two weighings; None where they are not recorded, or of another formula."""
    if batch.pot is None or batch.formula is None or not matches(batch.formula, computed.fingerprint):
        return None
    return cooked(computed.figures, batch.pot.before.grams, batch.pot.after.grams)


def last_cook(bench: WeighSheet) -> Iterator[Message]:
    """What the latest lot's cook boiled off, for whoever cooks the next."""
    made = sorted((record.batch for record in bench.computed.batches), key=lambda b: (b.poured, b.lot))
    for batch in reversed(made):
        found = cook_of(batch, bench.computed)
        if found is not None:
            yield message(
                "work.cook.last", lot=batch.lot, lost=grams(found.lost), share=percent(found.lost_of_water)
            )
            return


def cook_facts(batch: Batch, computed: Published) -> Iterator[tuple[Message, Value]]:
    """The pot before and after, what boiled off, and the bar that comes of it, fresh and dried."""
    if batch.pot is None:
        return
    weights = (grams(batch.pot.before.grams), grams(batch.pot.after.grams))
    yield message("batch.pot"), message("batch.pot-weights", before=weights[0], after=weights[1])
    found = cook_of(batch, computed)
    if found is None:
        return
    yield (
        message("batch.boiled-off"),
        message("batch.boiled", lost=grams(found.lost), share=percent(found.lost_of_water)),
    )
    bars = computed.resolved.bars
    if not bars or not computed.model.by.dries:
        return
    fresh = message("batch.of-water", weight=grams(found.each(bars)), share=percent(found.water_share))
    yield message("batch.fresh-bar"), fresh
    dry = cured_water(computed.settings).share
    dried = message("batch.of-water", weight=grams(found.dried(dry) / bars), share=percent(dry))
    yield message("batch.dried-bar"), dried
