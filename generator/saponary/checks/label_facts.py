"""label-facts: a sheet of labels for a place whose law asks for more than the settings state."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import EVERYWHERE, WARNING
from saponary.checks.rule import Mention, ProofContext, Rule
from saponary.label.tables import LabelFact, jurisdictions
from saponary.reading.findings import Finding, Place
from saponary.schema.selling import ForSale, PlaceOfSale
from saponary.schema.settings import Settings


def weight(computed: Computed) -> Iterator[Mention]:
    if computed.model.label and computed.model.label.net_weight:
        yield Mention("net-weight", Place(computed.path))


def check(context: ProofContext) -> Iterator[Finding]:
    settings = context.book.settings
    if not any(context.mentions[RULE.name].values()):
        return
    for name, grid in settings.label_sheets.items():
        place = settings.law_of(grid)
        law = jurisdictions()[place]
        missing = [
            told for fact, told in _ASKED.items() if fact in law.label and not _stated(fact, settings, place)
        ]
        if missing:
            lacks = ", ".join(words for words, _ in missing)
            keys = ", ".join(key.replace("PLACE", law.id) for _, key in missing)
            yield Finding(
                RULE.name,
                "warning",
                context.book.settings_at(("label-sheets", name)),
                f"labels of the grid {name!r} lack what the {law.name} asks for: {lacks}",
                f"state {keys} ({law.rule}; defer to the law where you sell)",
                name,
            )


_ASKED: dict[LabelFact, tuple[str, str]] = {
    "responsible": ("who answers for it, with the address", "sold-in.PLACE.responsible"),
    "contact": ("a contact for reports of reactions", "sold-in.PLACE.contact"),
    "durability": (
        "a date of durability or a period after opening",
        "durability-months or after-opening-months",
    ),
}
"""In words, and the key. The origin is asked for of what is imported alone, and the function where it is not plain."""


def _stated(fact: LabelFact, settings: Settings, place: PlaceOfSale) -> bool:
    sold = settings.sold_in.get(place, ForSale())
    return {
        "responsible": sold.responsible is not None,
        "contact": bool(sold.contact),
        "durability": bool(settings.durability_months or settings.after_opening_months),
    }[fact]


RULE = Rule(
    "label-facts",
    "label",
    "Beside the ingredient list, a label carries what the law of its place requires. A soap sold only "
    "as soap needs less in the United States (21 CFR 701.20).",
    mentions=weight,
    book=check,
    kinds=WARNING,
    waivable=EVERYWHERE,
    each="grid",
)
