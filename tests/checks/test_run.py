"""All rules over a book: what is silenced in vain is told, and waivers of every file count."""

from __future__ import annotations

import pytest

from checks.books import GOOD, LESSON, more, proofed, recipe

SILENCE = "silence:\n  - {id: organic, because: every oil here is certified}\n"
IDLE = (
    "claims.yaml:2:5",
    "waiver",
    "warning",
    "the entry 'organic' finds nothing in this book",
    "take it out of silence:",
)


def told(files: dict[str, str]) -> list[tuple[str, str, str, str, str]]:
    findings = proofed(files).findings
    return [(str(f.place), f.rule, f.severity, f.message, f.hint) for f in findings]


def test_a_silence_that_hides_nothing_is_told() -> None:
    assert told(recipe(GOOD, claims=SILENCE)) == [IDLE]


@pytest.mark.parametrize(
    "files",
    [
        recipe(more("summary: An organic bar.\n"), claims=SILENCE),
        pytest.param(recipe(GOOD + "An organic bar.\n", claims=SILENCE), marks=pytest.mark.slow),
        pytest.param(recipe(GOOD, claims=SILENCE, book="title: Organic bars\n"), marks=pytest.mark.slow),
        pytest.param(
            recipe(
                GOOD,
                claims=SILENCE,
                batches="batches: [{lot: A1, poured: 2026-03-02, notes: All organic.}]\n",
            ),
            marks=pytest.mark.slow,
        ),
        recipe(GOOD, claims=SILENCE, lesson=LESSON + "All organic.\n"),
    ],
    ids=["summary", "notes", "book", "batch", "lesson"],
)
def test_one_that_hides_something_anywhere_is_not(files: dict[str, str]) -> None:
    assert told(files) == []


def test_without_it_the_word_is_found() -> None:
    assert [f[1] for f in told(recipe(GOOD + "An organic bar.\n"))] == ["claims"]
