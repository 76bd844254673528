"""certificate-needed: an oil whose published values scatter too far, with no value of the maker's own."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES
from saponary.checks.rule import Rule
from saponary.pantry.model import Oil
from saponary.reading.findings import Finding
from saponary.schema.oil_entry import OilEntry


def check(computed: Computed) -> Iterator[Finding]:
    stocks = computed.pantry.infusions
    for name in computed.model.oils.parts:
        oil = computed.pantry.oils[stocks[name].carrier if name in stocks else name]
        if _wanted(oil):
            yield computed.finding(
                RULE.name,
                ("oils", "parts", name),
                f"published saponification values of {oil.id} scatter too far to weigh lye by",
                f"state the saponification-value of {oil.id} in pantry.yaml, from the certificate of this oil",
                key=True,
                about=name,
            )


def _wanted(oil: Oil) -> bool:
    stated = oil.source.get("saponification-value")
    needed = isinstance(oil.entry, OilEntry) and oil.entry.certificate_needed
    return bool(needed) and (stated is None or stated.how != "maker")


RULE = Rule(
    "certificate-needed",
    "danger",
    "Published values of some oils differ so much that a value from a table can leave free alkali in "
    "the bar. Use the value on the supplier's certificate for your own lot.",
    recipe=check,
    waivable=IN_RECIPES,
    each="oil",
)
