"""The rule `claims`."""

from __future__ import annotations

import pytest

from checks.books import GOOD, found, more, recipe

BREAKER = recipe(more("summary: It heals dry skin.\n"))
TOLD = [
    (
        "recipes/tried.md:11:13",
        "error",
        "“heals dry skin” is a drug claim (US: to be called a remedy makes a soap a drug; EU: a cosmetic may not be presented as a medicine)",
        "leave it out",
    ),
]
NEIGHBOUR = recipe(more("summary: It washes.\n"))
ALSO = [
    (
        recipe(
            GOOD.replace("title: Plain Bar", "title: It heals skin"),
            book="title: It heals skin\n",
            batches="batches: [{lot: A1, poured: 2026-03-02, notes: It heals skin.}]\n",
        ),
        [
            (
                "batches/tried.yaml:1:51",
                "error",
                "“heals skin” is a drug claim (US: to be called a remedy makes a soap a drug; EU: a cosmetic may not be presented as a medicine)",
                "leave it out; or waive it with your reason in recipes/tried.md: waive: [{rule: claims, about: heals skin, because: …}]",
            ),
            (
                "book.yaml:1:8",
                "error",
                "“heals skin” is a drug claim (US: to be called a remedy makes a soap a drug; EU: a cosmetic may not be presented as a medicine)",
                "leave it out; or waive it with your reason: waive: [{rule: claims, about: heals skin, because: …}]",
            ),
            (
                "recipes/tried.md:2:11",
                "error",
                "“heals skin” is a drug claim (US: to be called a remedy makes a soap a drug; EU: a cosmetic may not be presented as a medicine)",
                "leave it out; or waive it with your reason: waive: [{rule: claims, about: heals skin, because: …}]",
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("notes", "at"),
    [
        ("Plain. It cures eczema.", "cures"),
        ("'Plain. It cures eczema.'", "cures"),
        ('"Plain. It cures eczema."', "cures"),
        ('"It cures ecz\\u0065ma."', '"It'),
    ],
)
def test_a_claim_in_a_file_of_batches_stands_where_it_is(notes: str, at: str) -> None:
    """Where the text is written otherwise than it reads, the value's own beginning stands for it."""
    line = f"  - {{lot: A1, poured: 2026-03-02, notes: {notes}}}"
    (one,) = found(recipe(GOOD, batches=f"batches:\n{line}\n"), "claims")
    assert (str(one.place), one.about) == (f"batches/tried.yaml:2:{line.index(at) + 1}", "cures eczema")


def test_a_denial_is_said_to_be_none() -> None:
    (one,) = found(recipe(GOOD + "It does not treat eczema.\n"), "claims")
    assert "; denying it still names it (US: " in one.message


def test_long_words_are_cut_in_the_message_and_the_waiver_alike() -> None:
    from saponary.checks.claims import told
    from saponary.words.entries import Entry
    from saponary.words.matching import Hit

    def hit(words: str) -> Hit:
        return Hit(0, 1, Entry("x", "drug", ("x",)), "", words)

    assert told(hit("Heals  You")) == "heals you"
    assert told(hit("x" * 80)) == "x" * 80
    assert told(hit("x" * 81)) == "x" * 79 + "…"


def test_after_a_hundred_the_rest_are_not_listed() -> None:
    many = "It cures eczema. " * 101
    of_recipe = found(recipe(GOOD + many + "\n"), "claims")
    assert len(of_recipe) == 101
    last = of_recipe[-1]
    assert (last.severity, last.message) == ("error", "more than 100 claims; the rest are not listed")
    assert last.hint == "correct those listed first" and last.place.line == of_recipe[0].place.line
    assert len(found(recipe(GOOD + many[: 17 * 100] + "\n"), "claims")) == 100
