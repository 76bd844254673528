"""lots: two batches of a book under one name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from saponary.book.computed import Computed
from saponary.book.records import BatchRecord
from saponary.checks.rule import Mention, ProofContext, Rule
from saponary.reading.findings import Finding


def lots(computed: Computed) -> Iterator[Mention]:
    yield from _named(computed.batches)


def _named(records: Iterable[BatchRecord]) -> Iterator[Mention]:
    for record in records:
        yield Mention(record.batch.lot, record.place(("lot",)))


def check(context: ProofContext) -> Iterator[Finding]:
    """Lots of recipes that cannot be computed are lots all the same."""
    known = context.mentions[RULE.name]
    first: dict[str, str] = {}
    for slug in sorted(context.book.batches):
        for one in known.get(slug, ()) if slug in context.facts else _named(context.book.batches[slug]):
            if one.text not in first:
                first[one.text] = slug
            elif first[one.text] == slug:
                message = f"the lot {one.text!r} is recorded twice"
                yield Finding(RULE.name, "error", one.place, message, "give each batch its own lot")
            else:
                message = f"the lot {one.text!r} is recorded for {first[one.text]!r} too"
                hint = "give each batch of the book its own lot"
                yield Finding(RULE.name, "error", one.place, message, hint)


RULE = Rule(
    "lots",
    "sense",
    "A lot is traced by its name, from a bar back to its weights. No two batches of a book may have the"
    " same name.",
    mentions=lots,
    book=check,
)
