"""unknown-uptake: something that may bind alkali or bring it, and nobody says how much."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    unknown = frozenset(computed.figures.unknown)
    named = [(path, what) for path, what, _ in (*computed.additions(), *computed.liquids())]
    told: set[str] = set()
    for path, what in named:
        if what in unknown and what not in told:
            told.add(what)
            yield computed.finding(
                RULE.name,
                (*path, "what"),
                f"how much alkali {what!r} binds or brings is not known, so no superfat here is checked",
                _HINT,
                "warning",
                about=what,
            )


_HINT = (
    "state its acid or its free-alkali in pantry.yaml (acid: 0 mmol/g where it binds none), or leave it out"
)

RULE = Rule(
    "unknown-uptake",
    "danger",
    "Some salts, juices and soaps bind alkali or bring it: magnesium binds it, ash leaves some behind. "
    "Where it is not known how much, the superfat is calculated without it and has not been checked.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="ingredient",
)
