"""sugar-in-lye: milk, honey or another reducing sugar put straight into the lye."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    pantry = computed.pantry
    for path, what, stage in computed.liquids():
        entry = pantry.liquid(what)
        if stage == "lye" and entry is not None and "carbon-monoxide" in entry.hazards:
            yield computed.finding(
                RULE.name,
                (*path, "at"),
                f"{what} holds sugars that hot lye turns to carbon monoxide",
                _HINT,
                "warning",
            )
    stages = {(a.id, a.portion): a.stage for a in computed.resolved.formula.additions}
    for path, what, portion in computed.additions():
        if stages.get((what, portion)) == "lye" and "carbon-monoxide" in pantry.additions[what].hazards:
            yield computed.finding(
                RULE.name,
                (*path, "what"),
                f"{what} holds sugars that hot lye turns to carbon monoxide",
                _HINT,
                "warning",
            )


_HINT = "add it at trace; or frozen, slowly, cold, open and aired, never in a closed vessel"

RULE = Rule(
    "sugar-in-lye",
    "danger",
    "Caustic solution reacts with reducing sugars (milk, honey, whey, fruit) and can give off carbon "
    "monoxide. Put them in at trace, or work frozen, slowly and in moving air.",
    check,
)
