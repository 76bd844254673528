"""free-alkali: a lot whose last test found alkali left over."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        last = record.batch.last_test()
        if last is None or last.result == "none":
            continue
        found = "free alkali" if last.result == "present" else "a trace of free alkali"
        yield record.finding(
            RULE.name,
            ("free-alkali",),
            f"lot {record.batch.lot} held {found} on {last.on.isoformat()}",
            "hold the lot back, test it again after more cure, and record that test",
            "warning",
            about=record.batch.lot,
        )


RULE = Rule(
    "free-alkali",
    "danger",
    "A bar that holds free alkali burns skin. A lot whose last test found any is held back until a later test "
    "finds none.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="lot",
)
