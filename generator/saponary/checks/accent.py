"""accent: an accent colour of the book's own that is hard to read on the paper it stands on."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.listed import IN_THE_BOOK, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.quantity.contrast import contrast
from saponary.quantity.rounding import show_down
from saponary.reading.findings import Finding
from saponary.schema.look import PAPER

LEAST = 4.5
"""For text of usual size (WCAG 2.2, success criterion 1.4.3, seen)."""


def check(context: ProofContext) -> Iterator[Finding]:
    accent = context.book.settings.look.accent
    for ground, colour in (("light", accent.light), ("dark", accent.dark)):
        if colour is None:
            continue
        found = contrast(colour, PAPER[ground])
        if found < LEAST:
            place = context.book.settings_at(("look", "accent", ground))
            message = f"{colour} is {show_down(found, 1)}:1 against the {ground} paper {PAPER[ground]}, and text needs {LEAST}:1"
            hint = "take a darker colour" if ground == "light" else "take a lighter colour"
            yield Finding(RULE.name, "warning", place, message, hint, ground)


RULE = Rule(
    "accent",
    "words",
    "An accent colour of your own is read as text: links, and what is chosen. It stands out from the paper by at "
    "least 4.5:1, on light ground and on dark.",
    book=check,
    kinds=WARNING,
    waivable=IN_THE_BOOK,
    each="ground",
)
