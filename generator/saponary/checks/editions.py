"""editions: a recipe or batch kept to an edition that does not exist, or a book that always builds one."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.file_names import SETTINGS_FILE
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding, suggest
from saponary.schema.edition import ALL, editions


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


def check_book(context: ProofContext) -> Iterator[Finding]:
    book = context.book
    known = editions(book.settings.editions)
    for index, name in enumerate(book.settings.build):
        if name not in (*known, ALL):
            place = book.settings_tree.place(SETTINGS_FILE, ("build", index))
            message, hint = f"there is no edition {name!r}", suggest(name, known, "editions")
            yield Finding(RULE.name, "error", place, message, hint)
    for page in book.pages:
        for index, name in enumerate(page.plan.editions if page.plan is not None else ()):
            if name not in known:
                place = page.tree.place(page.file, ("editions", index))
                message, hint = f"there is no edition {name!r}", suggest(name, known, "editions")
                yield Finding(RULE.name, "error", place, message, hint)


RULE = Rule(
    "editions",
    "sense",
    "A recipe, a page or a batch may be kept to some editions by name, and book.yaml lists those to build always: the "
    "standard ones (public, shop, class, maker) or the book's own.",
    recipe=check,
    book=check_book,
)
