"""vessel: aluminium, zinc, tin, pewter, copper or brass named where lye would meet it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, Place
from saponary.reading.tree import Lines

_METAL = re.compile(
    r"\b(alumini?um|alumin(?:ium)?\s{1,9}foil|galvani[sz]ed|zinc(?!\s{1,9}(?:oxide|white|stearate))|tinned|copper|brass|bronze|pewter"
    r"|cast[ -]iron|tin(?=\s{1,9}(?:pan|pot|bowl|jug|can|bucket|pail|tub|vessel|cup|mug|tray|mould|mold|lid|spoon|ladle)))\b",
    re.IGNORECASE,
)
_BARE_TIN = re.compile(r"\btins?\b", re.IGNORECASE)
"""Of a vessel; a tin of coconut milk in a step is none."""
_REFUSED = re.compile(
    r"\b(no|nor|not|never|without|avoid|instead of|rather than|keep \w+ away|away from|eats?|dissolves?|attacks?)\b"
    r"|n['’]t\b",
    re.IGNORECASE,
)
_CLAUSE = re.compile(r"[.;:!?](?=\s)|\n[ \t\r]*\n|\bbut\b")
"""Where a refusal ends: what is said of the next pot is said of that."""


def check(computed: Computed) -> Iterator[Finding]:
    model = computed.model
    if model.vessel is not None:
        yield from _in(computed, computed.place(("vessel",)), model.vessel, bare=True)
    for index, step in enumerate(model.steps):
        yield from _in(computed, computed.place(("steps", index, "say")), step.say)
    file = computed.file
    lines = Lines(file.text)
    for start, clause in _clauses(file.body):
        for metal in _named(clause, bare=False):
            line, column = lines.at(file.body_start + start + clause.index(metal))
            yield _finding(Place(file.file, line, column), metal)


def _in(computed: Computed, place: Place, text: str, *, bare: bool = False) -> Iterator[Finding]:
    found = [metal for _, clause in _clauses(text) for metal in _named(clause, bare=bare)]
    if found:
        yield _finding(place, found[0])


def _clauses(text: str) -> Iterator[tuple[int, str]]:
    start = 0
    for end in [*_CLAUSE.finditer(text), None]:
        stop = end.start() if end else len(text)
        yield start, text[start:stop]
        start = end.end() if end else stop


def _named(clause: str, *, bare: bool) -> Iterator[str]:
    """The first metal of a clause that lye eats, where the clause does not refuse it."""
    metal = _METAL.search(clause) or (_BARE_TIN.search(clause) if bare else None)
    if metal and not _REFUSED.search(clause):
        yield metal[0]


def _finding(place: Place, metal: str) -> Finding:
    hint = "use stainless steel, polypropylene or HDPE"
    return Finding(RULE.name, "error", place, f"lye eats {' '.join(metal.lower().split())}", hint)


RULE = Rule(
    "vessel",
    "danger",
    "Lye dissolves aluminium, zinc, tin and brass, giving off hydrogen. It belongs in stainless steel, "
    "polypropylene or HDPE.",
    recipe=check,
)
