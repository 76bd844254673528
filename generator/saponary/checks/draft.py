"""draft: nothing is stated, so nobody has signed for these figures."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.rule import Case, Rule
from saponary.reading.findings import Finding


def check(case: Case) -> Iterator[Finding]:
    if not case.model.stated:
        yield case.finding(
            RULE.name, (), "nothing is stated: this is a draft, and is left out of the site",
            f"when the figures are right, run: saponary restate --sign {case.file.slug}", "warning",
        )  # fmt: skip


RULE = Rule(
    "draft",
    "stale",
    "The stated figures are the maker's signature. A recipe without them is a draft and is not published.",
    check,
)
