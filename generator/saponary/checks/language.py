"""language: the book is in a language of which something that is checked or said elsewhere is not known."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.listed import EVERYWHERE, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.messages.speaker import speaker
from saponary.reading.findings import Finding
from saponary.words.entries import WordList
from saponary.words.figure_words import figure_words


def check(context: ProofContext) -> Iterator[Finding]:
    notice = unchecked(context.book.settings.language, context.words)
    if notice:
        yield Finding(
            RULE.name,
            "warning",
            context.book.settings_at(("language",)),
            notice,
            "read the book for these yourself, and waive this with the name of who read it; a claims.yaml of your own "
            "adds words",
        )


def unchecked(language: str, words: WordList) -> str:
    """What of the checks and of the pages is not done in this language; '' where all is."""
    own = language.partition("-")[0].lower()
    missing = [
        said
        for said, known in (
            ("claim words, so claims are not found", own in words.languages),
            ("words beside a weight, so bare figures are not found", own in figure_words().languages),
            ("words of pages and labels, so these are in English", speaker(language).language == own),
        )
        if not known
    ]
    return f"for the language {language!r} there is no list of {'; nor of '.join(missing)}" if missing else ""


RULE = Rule(
    "language",
    "words",
    "Claims, bare figures and the words of pages need a list for each language. Where a list is "
    "missing, nothing is found.",
    book=check,
    kinds=WARNING,
    waivable=EVERYWHERE,
)
