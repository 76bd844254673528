"""lots: two batches of a book under one name."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding


def check(context: ProofContext) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for slug in sorted(context.book.batches):
        for record in context.book.batches[slug]:
            lot = record.batch.lot
            if lot not in first:
                first[lot] = slug
            elif first[lot] == slug:
                message = f"the lot {lot!r} is recorded twice"
                yield record.finding(RULE.name, ("lot",), message, "give each batch its own lot")
            else:
                message = f"the lot {lot!r} is recorded for {first[lot]!r} too"
                yield record.finding(RULE.name, ("lot",), message, "give each batch of the book its own lot")


RULE = Rule(
    "lots",
    "sense",
    "A lot is traced by its name alone, from a bar back to its weights, so that no two batches of a book share one.",
    book=check,
)
