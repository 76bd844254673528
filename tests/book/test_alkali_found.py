"""A titration is held against the book's limit, and what is over it holds the lot back as any other test does."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.book.alkali_found import clean_test, found
from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.book.standing import labelled, standing
from saponary.checks.free_alkali import check
from saponary.pantry.standard import standard
from saponary.schema.batch import FreeAlkali
from saponary.schema.settings import Settings
from support import PLAIN, prove_one

TITRATED = "{acid: 1.2 ml, strength: 0.1 mol/l, sample: 5 g}"
"""By hand: 0.12 mmol, 4.80 mg of NaOH in 5 g, 0.096 %; as KOH 0.135 %."""


def one(test: str, limit: str | None) -> Computed:
    settings = Settings.model_validate({"free-alkali-limit": limit} if limit else {})
    book = Book(Path("/nowhere"), settings, standard(), [], frozenset(), {}, [])
    lot = f"batches: [{{lot: A1, poured: 2026-03-02, free-alkali: {{test: with acid, on: 2026-04-10, {test}}}}}]\n"
    return prove_one(PLAIN.replace("signed:\n", lot + "signed:\n"), book).recipes[0].computed


@pytest.mark.parametrize(
    ("test", "limit", "name"),
    [
        (f"titration: {TITRATED}", "0.1 %", "clean"),
        (f"titration: {TITRATED}", "0.096 %", "clean"),
        (f"titration: {TITRATED}", "0.095 %", "present"),
        (f"titration: {TITRATED}", None, "present"),
        ("titration: {acid: 0 ml, strength: 0.1, sample: 5 g}", None, "clean"),
        (f"titration: {TITRATED}, result: trace", "0.1 %", "trace"),
        (f"titration: {TITRATED}, result: none", "0.05 %", "present"),
        (f"titration: {TITRATED.replace('sample', 'as: potassium-hydroxide, sample')}", "0.13 %", "present"),
        (f"titration: {TITRATED.replace('sample', 'as: potassium-hydroxide, sample')}", "0.14 %", "clean"),
    ],
)
def test_the_worse_of_what_was_seen_and_measured_decides(test: str, limit: str | None, name: str) -> None:
    computed = one(test, limit)
    batch = computed.batches[0].batch
    stands = standing(batch, computed)
    assert stands.name == name
    assert stands.held == (name != "clean")
    assert (clean_test(batch, computed.settings) is not None) == (name == "clean")
    assert labelled(computed).made == (name == "clean")


def test_the_finding_says_how_much_and_what_is_allowed() -> None:
    for limit, told in (
        (
            "0.05 %",
            "lot A1 held 0.096 % of free sodium hydroxide on 2026-04-10, more than the 0.050 % that the book allows",
        ),
        (None, "lot A1 held 0.096 % of free sodium hydroxide on 2026-04-10, and the book sets no limit"),
    ):
        computed = one(f"titration: {TITRATED}", limit)
        assert [finding.message for finding in check(computed)] == [told]


def test_a_test_says_what_it_found() -> None:
    lot = "batches: [{lot: A1, poured: 2026-03-02, free-alkali: {test: with acid, on: 2026-04-10}}]\n"
    told = [f.message for f in prove_one(PLAIN.replace("signed:\n", lot + "signed:\n")).findings]
    assert "this test does not say what it found" in told


def test_seen_alone_is_as_seen() -> None:
    test = FreeAlkali.model_validate({"test": "paper", "result": "trace", "on": "2026-04-10"})
    assert found(test, Settings()) == "trace"
