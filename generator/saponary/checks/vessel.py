"""vessel: aluminium, zinc, tin, copper or brass named where lye would meet it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding
from saponary.reading.tree import Path

_METAL = re.compile(r"\b(alumini?um|galvani[sz]ed|zinc(?!\s+oxide)|tinned|copper|brass)\b", re.IGNORECASE)
_REFUSED = re.compile(r"\b(no|not|never|without|avoid|instead of|rather than|keep \w+ away)\b", re.IGNORECASE)


def check(computed: Computed) -> Iterator[Finding]:
    texts: list[tuple[Path, str]] = []
    if computed.model.vessel is not None:
        texts.append((("vessel",), computed.model.vessel))
    texts += [(("steps", i, "say"), step.say) for i, step in enumerate(computed.model.steps)]
    for path, text in texts:
        metal = _METAL.search(text)
        if metal and not _REFUSED.search(text):
            yield computed.finding(
                RULE.name, path, f"lye eats {metal[0].lower()}", "use stainless steel, polypropylene or HDPE"
            )


RULE = Rule(
    "vessel",
    "danger",
    "Lye dissolves aluminium, zinc, tin and brass, giving off hydrogen. It belongs in stainless steel, "
    "polypropylene or HDPE.",
    recipe=check,
)
