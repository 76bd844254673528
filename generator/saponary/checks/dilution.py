"""dilution: a paste that holds less fatty matter than it is to be thinned to, or alkali that an acid is to take."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.aims import excess_is_taken, thinned
from saponary.book.computed import Computed
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    aims = computed.resolved.aims
    found = thinned(computed.resolved.formula, computed.figures, aims)
    if found is None or aims.fatty_matter is None:
        return
    if found.water < 0:
        there = show(100 * found.share_in_paste, 1)
        yield computed.finding(
            RULE.name,
            ("dilute",),
            f"the paste as weighed in holds {there} % of total fatty matter, less than the "
            f"{show(100 * aims.fatty_matter, 1)} % it is to be thinned to",
            f"a share below {there} %, or less water in the lye",
            key=True,
            about="paste",
        )
    if excess_is_taken(aims, computed.model, computed.figures) and aims.acid is not None:
        acid = computed.catalogue["neutralising-acid"].text()
        yield computed.finding(
            RULE.name,
            ("superfat",),
            f"{show(-100 * computed.figures.superfat, 1)} % more alkali than the oils take is left, "
            f"and {acid} of {aims.acid.id} takes it",
            "test the thinned soap for free alkali before anybody uses it",
            "warning",
            about="excess",
        )


RULE = Rule(
    "dilution",
    "sense",
    "Water only thins a paste: the total fatty matter (ISO 685) of the soap must be less than that of "
    "its paste. Where the formula has an excess of alkali for an acid to neutralise, it is shown.",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
    each="figure",
)
