"""editions: a recipe or batch kept to an edition that does not exist."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, suggest
from saponary.schema.edition import editions


def check(computed: Computed) -> Iterator[Finding]:
    known = editions(computed.settings.editions)
    for index, name in enumerate(computed.model.editions):
        if name not in known:
            message = f"there is no edition {name!r}"
            yield computed.finding(RULE.name, ("editions", index), message, suggest(name, known, "editions"))
    for record in computed.batches:
        for index, name in enumerate(record.batch.editions):
            if name not in known:
                message = f"there is no edition {name!r}"
                yield record.finding(
                    RULE.name, ("editions", index), message, suggest(name, known, "editions")
                )


RULE = Rule(
    "editions",
    "sense",
    "A recipe or a batch may be kept to some editions by name: the standard ones (public, shop, class, maker) "
    "or the book's own.",
    recipe=check,
)
