"""What a recipe's label says, in the book's language: its length decides how large it can be set."""

from __future__ import annotations

from typing import get_args

from saponary.book.best_before import best_before_of
from saponary.book.computed import Computed
from saponary.book.plain_title import plain_title
from saponary.book.published import Published
from saponary.book.standing import labelled
from saponary.label.beside_list import facts, responsible, wanted
from saponary.label.cautions import for_buyers
from saponary.label.fit import LabelText
from saponary.label.lists import Bar
from saponary.label.tables import jurisdictions
from saponary.messages.message import Day, Message, day, message
from saponary.messages.speaker import speaker
from saponary.quantity.numbers import OUNCE
from saponary.quantity.rounding import show_down
from saponary.schema.methods.method import Makes
from saponary.schema.selling import ForSale, PlaceOfSale
from saponary.schema.settings import Settings

_OUNCES_IN_A_POUND = 16.0


def net_weight(grams: float) -> Message:
    """In both units, each rounded down, so that neither promises more than there is."""
    metric = show_down(grams, 0 if grams >= 10 else 1)
    ounces = grams / OUNCE
    text = message("label.net", grams=metric, ounces=show_down(ounces, 1))
    pounds = show_down(ounces / _OUNCES_IN_A_POUND, 0)
    if pounds == "0":
        return text
    rest = show_down(ounces - _OUNCES_IN_A_POUND * int(pounds), 1)
    return message("label.net-pounds", net=text, pounds=pounds, ounces=rest)


def label_text(
    computed: Computed | Published, bar: Bar, settings: Settings, law: PlaceOfSale
) -> LabelText | None:
    """What a recipe's label says, in the book's language, since its length says how large it is set;
    None where the recipe states no net weight, or all its lots are held back.
    """
    label = computed.model.label
    lots = computed.labelled if isinstance(computed, Published) else labelled(computed)
    if label is None or label.net_weight is None or not lots.made:
        return None
    say = speaker(settings.language, settings.units)
    durable = settings.durability_months is not None and wanted(law, "durability")
    good = _good_until(computed, lots.lot) if durable else None
    dated = [say(message("label.good-until", day=good))] if good is not None else []
    sold = settings.sold_in.get(law, ForSale())
    heads = (say(caution.head) for caution in for_buyers(computed))
    return LabelText(
        name=plain_title(computed.model.title, computed.catalogue),
        kind=say(f"label.kind.{computed.model.by.makes}"),
        ingredients=say("label.ingredients", listed=bar.ingredients(jurisdictions()[law]).text),
        caution=" ".join((say("label.eyes"), *heads)),
        net_weight=say(net_weight(label.net_weight.grams)),
        maker=say.say(responsible(settings, sold)),
        before=say("label.best-before") if durable and good is None else "",
        facts=" ".join((*dated, *(say.say(fact) for fact in facts(settings, sold, law)))),
        names_lot=bool(lots.lot),
        lot=say(message("label.of-lot", lot=lots.lot) if lots.lot else message("label.lot")),
    )


def _good_until(computed: Computed | Published, lot: str) -> Day | None:
    """The day until which a lot is good; None where it is not known for certain, or the labels are for any lot."""
    found = (
        computed.best_before.get(lot) if isinstance(computed, Published) else best_before_of(computed, lot)
    )
    return day(found.day) if found is not None and found.sure else None


KEYS_BY_ID = {"label.kind.": get_args(Makes)}
"""Keys that are put together here: what they start with, and the ids that may follow."""
