"""Numbers in running text beside what they are of: found where they are wrong, left alone where they are not.

The sentences are our own (bare_sentences.yaml), in four languages; no source outside.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from saponary.book.library import Book
from saponary.pantry.standard import standard
from saponary.schema.settings import Settings
from support import prove_one

SENTENCES = yaml.safe_load((Path(__file__).parent / "bare_sentences.yaml").read_text("utf-8"))
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


def found(sentence: str, language: str) -> bool:
    book = Book(Path("/nowhere"), Settings(language=language), standard(), [], frozenset(), {}, [])
    proof = prove_one(RECIPE.replace("SENTENCE", sentence), book)
    assert proof.recipes, proof.findings
    return any(f.rule == "bare-figure" for f in proof.findings)


CASES = [
    pytest.param(text, code, kind == "wrong", id=f"{code}-{kind}-{n}")
    for code, kinds in SENTENCES.items()
    for kind, texts in kinds.items()
    for n, text in enumerate(texts)
]


def rates() -> dict[str, tuple[int, int]]:
    told: dict[str, tuple[int, int]] = {}
    for code, kinds in SENTENCES.items():
        for kind, texts in kinds.items():
            right = sum(found(text, code) == (kind == "wrong") for text in texts)
            told[f"{code} {kind}"] = (right, len(texts))
    return told


def test_sentences_are_judged_as_a_reader_would() -> None:
    told = rates()
    print(told)
    wrong = [told[key] for key in told if key.endswith("wrong")]
    fine = [told[key] for key in told if key.endswith("fine")]
    assert sum(right for right, _ in wrong) >= 0.95 * sum(of for _, of in wrong)
    assert sum(right for right, _ in fine) >= 0.97 * sum(of for _, of in fine)
