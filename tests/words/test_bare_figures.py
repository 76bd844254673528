"""Numbers in running text beside what they are of: found where they are wrong, left alone where they are not.

The sentences are our own (bare_sentences.yaml, bare_sentences_unseen.yaml), in four languages; no source
outside. Numbers written as words are held to num2words, a general library, in test_spelt_numbers.py.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from saponary.book.computed import Computed
from saponary.book.library import Book
from saponary.book.recipe_text import parse_recipe
from saponary.checks.bare_figure import check
from saponary.pantry.standard import standard
from saponary.schema.settings import Settings
from support import BOOKS, proof_of, prove_one, read_plain, some

SENTENCES = read_plain((Path(__file__).parent / "bare_sentences.yaml").read_text("utf-8"))
RECIPE = """\
---
title: Quarry Strata
oils:
  total: 1000 g
  parts: {olive: 45 %, coconut: 25 %, shea-butter: 15 %, sunflower: 10 %, castor: 5 %}
superfat: 5 %
water: {lye-strength: 33 %}
liquids: [{what: oat-drink, amount: 60 g, at: trace}]
additions:
  - {what: sodium-lactate, amount: 2 % of oils, at: lye}
  - {what: kaolin, amount: 10 g}
  - {what: turmeric, amount: 2.4 g}
  - {what: salt, amount: 15 g, at: lye}
---
SENTENCE
"""


@cache
def computed(language: str) -> Computed:
    """The recipe, computed once for all sentences of a language."""
    book = Book(Path("/nowhere"), Settings(language=language), standard(), [], frozenset(), {}, [])
    (one,) = prove_one(RECIPE, book).recipes
    return one.computed


def found(sentence: str, language: str) -> bool:
    recipe = parse_recipe("recipes/tried.md", RECIPE.replace("SENTENCE", sentence))
    assert recipe.model is not None, recipe
    return any(check(replace(computed(language), file=recipe)))


UNSEEN = read_plain((Path(__file__).parent / "bare_sentences_unseen.yaml").read_text("utf-8"))


def rates(sentences: dict[str, dict[str, list[str]]]) -> dict[str, tuple[int, int]]:
    told: dict[str, tuple[int, int]] = {}
    for code, kinds in sentences.items():
        for kind, texts in kinds.items():
            right = sum(found(text, code) == (kind == "wrong") for text in texts)
            told[f"{code} {kind}"] = (right, len(texts))
    return told


def test_sentences_are_judged_as_a_reader_would() -> None:
    told = rates(SENTENCES)
    print(told)
    wrong = [told[key] for key in told if key.endswith("wrong")]
    fine = [told[key] for key in told if key.endswith("fine")]
    assert sum(right for right, _ in wrong) >= 0.95 * sum(of for _, of in wrong)
    assert sum(right for right, _ in fine) >= 0.97 * sum(of for _, of in fine)


@pytest.mark.parametrize(("half", "recall", "silent"), [("held", 0.90, 0.94), ("used", 0.97, 0.98)])
def test_sentences_written_before_the_words_were_read(half: str, recall: float, silent: float) -> None:
    told = rates(UNSEEN[half])
    print(half, told)
    for kind, floor in (("wrong", recall), ("fine", silent)):
        right, of = (sum(told[key][n] for key in told if key.endswith(kind)) for n in (0, 1))
        assert right >= floor * of, (half, kind, right, of)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["later", "newest"])
def test_sentences_written_later(name: str) -> None:
    """The files say how many drew a finding as first read; what they showed is mended in the words."""
    parts = read_plain((Path(__file__).parent / f"bare_sentences_{name}.yaml").read_text("utf-8"))
    told = {part: rates(sentences) for part, sentences in parts.items()}
    print(told)
    for kind, floor in (("wrong", 0.94), ("fine", 0.97)):
        every = [found for part in told.values() for key, found in part.items() if key.endswith(kind)]
        right, of = (sum(each[n] for each in every) for n in (0, 1))
        assert right >= floor * of, (kind, right, of)
        assert of >= 50


def test_no_sentence_stands_in_both_halves() -> None:
    held, used = (
        {text for kinds in UNSEEN[half].values() for texts in kinds.values() for text in texts}
        for half in ("held", "used")
    )
    assert len(held) == len(used) == 200
    assert not held & used


@pytest.mark.parametrize("book", BOOKS)
def test_a_real_book_is_silent(book: str) -> None:
    some(proof_of(book).recipes)
    assert [f for f in proof_of(book).findings if f.rule == "bare-figure"] == []


WRONG_FORMS = [
    ("en", "Weigh one hundred and forty-two grams of lye."),
    ("en", "Half a kilo of olive oil goes in first."),
    ("en", "Warm ½ kg of olive oil."),
    ("en", "Warm 1 1/2 lb of olive oil."),
    ("en", "Melt 10 oz of coconut oil."),
    ("en", "The oils weigh 1,100 g."),
    ("en", "The water to lye ratio is 2.5 to 1."),
    ("en", "Water to lye is three to one."),
    ("en", "Two parts water to two parts lye."),
    ("en", "Lye and water stand at 1:3."),
    ("en", "Take 300 ml of water."),
    ("en", "Weigh 1**4**0 g of lye."),
    ("en", "Weigh **1**40&nbsp;g of lye."),
    ("en", "Weigh 140\u2009g of lye."),
    ("en", "Weigh 140\u202fg of lye."),
    ("en", "A superfat of 8\u00a0% is kind."),
    ("en", "A 10-percent superfat is kind."),
    ("en", "Lye and water weigh 450 g."),
    ("de", "Einhundertzweiundvierzig Gramm NaOH abwiegen."),
    ("de", "Eine 8%ige Überfettung reicht."),
    ("de", "Zusammen 1.100 g Öle."),
    ("de", "Wasser zu NaOH 3 zu 1."),
    ("fr", "Un demi-kilo d'huile d'olive."),
    ("fr", "Pesez 1\u202f100 g d'huiles."),
    ("es", "Medio kilo de aceite de oliva."),
    ("es", "En total 1.100 g de aceites."),
]
FINE_FORMS = [
    ("en", "Weigh one hundred and thirty-eight grams of lye."),
    ("en", "Melt ¼ kg of coconut oil."),
    ("en", "Melt 1/4 kg of coconut oil."),
    ("en", "Melt 8.8 oz of coconut oil."),
    ("en", "The oils weigh 1,000 g."),
    ("en", "Water to lye is 2 to 1."),
    ("en", "Two parts water to one part lye."),
    ("en", "Lye to water is 1:2."),
    ("en", "Take 281 ml of water."),
    ("en", "Weigh 13**8**.4 g of lye."),
    ("en", "Weigh 138.4\u2009g of lye."),
    ("en", "Weigh 150–160 g of lye."),
    ("en", "Weigh 150 to 160 g of lye."),
    ("en", "Between 6 % and 8 % superfat is kind."),
    ("en", "Hold a third of the water back."),
    ("en", "Hold back 30 g of the olive oil."),
    ("en", "A tablespoon of castor oil comes to 14 g."),
    ("en", "Stir the kaolin into 20 g of water."),
    ("en", "At 28 % the lye is slow, at 40 % it races."),
    ("en", "For 24 bars, 2 kg of oils."),
    ("en", "Lye and water weigh 419 g."),
    ("de", "Einhundertachtunddreißig Gramm NaOH abwiegen."),
    ("de", "Zusammen 1.000 g Öle."),
    ("fr", "Pesez 1\u202f000 g d'huiles."),
    ("es", "En total 1.000 g de aceites."),
]


@pytest.mark.parametrize(("language", "text"), WRONG_FORMS)
def test_a_wrong_figure_is_found_in_every_form(language: str, text: str) -> None:
    assert found(text, language)


@pytest.mark.parametrize(("language", "text"), FINE_FORMS)
def test_a_form_that_tells_no_wrong_figure_is_left_alone(language: str, text: str) -> None:
    assert not found(text, language)


TOLD = "Weigh 140 g of lye."


def _proved(more: str) -> list[str]:
    base = RECIPE.replace("title: Quarry Strata\n", "") if more.startswith("title:") else RECIPE
    text = base.replace("superfat: 5 %", f"{more}\nsuperfat: 5 %").replace("SENTENCE", "A bar.")
    proof = prove_one(text)
    assert proof.recipes, proof.findings
    return [f.about for f in proof.findings if f.rule == "bare-figure"]


@pytest.mark.parametrize(
    "more",
    [
        f"summary: {TOLD}",
        f"steps: [{{at: lye, say: {TOLD}}}]",
        f"photo: {{file: a.jpg, day: 0, alt: {TOLD}}}",
        f"portions: [{{name: chalk, share: 40 %, note: {TOLD}}}, {{name: ochre, share: 60 %}}]",
        f"title: {TOLD}",
    ],
    ids=["summary", "say", "alt", "note", "title"],
)
def test_texts_of_the_front_matter_are_read(more: str) -> None:
    assert _proved(more) == ["140 g"]


@pytest.mark.parametrize(
    "more",
    [
        f"private: {{notes: {TOLD}}}",
        f"batches: [{{lot: Q-1, poured: 2026-01-12, notes: {TOLD}}}]",
    ],
    ids=["private", "batch"],
)
def test_what_is_private_or_of_one_lot_is_not(more: str) -> None:
    assert _proved(more) == []
