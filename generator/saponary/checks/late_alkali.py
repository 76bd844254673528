"""late-alkali: an acid, or something that brings alkali, that goes in when no lye is left."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.lye.formula import LATE
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    formula = computed.resolved.formula
    stages = {(a.id, a.portion): a for a in formula.additions}
    for path, what, portion in computed.additions():
        part = stages.get((what, portion))
        if part is None or part.stage not in LATE or part.stage == "pour":
            continue
        if part.acid > 0:
            yield computed.finding(
                RULE.name,
                (*path, "what"),
                f"{what!r} goes in when no lye is left: it splits soap, and no lye is weighed for it",
                "put it in at lye, or leave it out" if formula.weighs_lye else "leave it out",
                "warning",
                about=what,
            )
        elif max(part.base, part.base_most) > 0 and not formula.weighs_lye:
            yield computed.finding(
                RULE.name,
                (*path, "what"),
                f"{what!r} brings free alkali, and nothing here is known to take it up",
                "leave it out",
                about=what,
            )


RULE = Rule(
    "late-alkali",
    "danger",
    "After the cook, and in a rebatch, no lye is left for an acid: it would split soap into fatty acid."
    " Alkali that an addition brings has no weighed superfat to take it up.",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
    each="addition",
)
