"""How well the word lists find claims, measured on sentences labelled by hand."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from saponary.words.standard import standard
from support import find_claims, read_plain

ROOM = Path(__file__).parent
FURTHER = ("unseen", "second", "third", "fourth")
"""Sentences written before the lists were read or mended again, by kind; every second one of the first is held."""

SENTENCES: dict[str, list[dict[str, Any]]] = read_plain(
    Path(__file__).with_name("sentences.yaml").read_text(encoding="utf-8")
)


def measured(*, held: bool) -> dict[str, float]:
    """Recall and precision of finding a claim, and of finding a drug claim as one."""
    counts = dict.fromkeys(("found", "missed", "wrong", "drug found", "drug missed", "drug wrong"), 0)
    for language, rows in SENTENCES.items():
        for row in rows:
            if held and not row.get("held"):
                continue
            groups = {hit.entry.group for hit in find_claims(row["text"], language, standard())}
            is_claim = row["is"] != "none"
            counts["found"] += is_claim and bool(groups)
            counts["missed"] += is_claim and not groups
            counts["wrong"] += bool(groups) and not is_claim
            counts["drug found"] += row["is"] == "drug" and "drug" in groups
            counts["drug missed"] += row["is"] == "drug" and "drug" not in groups
            counts["drug wrong"] += row["is"] != "drug" and "drug" in groups
    return {
        "recall": counts["found"] / (counts["found"] + counts["missed"]),
        "precision": counts["found"] / (counts["found"] + counts["wrong"]),
        "drug recall": counts["drug found"] / (counts["drug found"] + counts["drug missed"]),
        "drug precision": counts["drug found"] / (counts["drug found"] + counts["drug wrong"]),
    }


@pytest.mark.parametrize("held", [False, True], ids=["all", "held-out"])
def test_recall_and_precision(held: bool) -> None:
    figures = measured(held=held)
    print("held-out" if held else "all", {name: round(value, 3) for name, value in figures.items()})
    assert all(value >= 0.95 for value in figures.values()), figures


def test_there_are_enough_sentences_of_each_kind() -> None:
    assert len(SENTENCES["en"]) >= 180 and len(SENTENCES["de"]) >= 20 and len(SENTENCES["fr"]) >= 20
    held = [row for rows in SENTENCES.values() for row in rows if row.get("held")]
    assert len(held) >= 110
    for rows in SENTENCES.values():
        assert {row["is"] for row in rows} == {"drug", "cosmetic", "none"}
        assert len({row["text"] for row in rows}) == len(rows)


def counted(name: str, *, held: bool) -> tuple[int, int, int]:
    """Claims found, claims missed, and sentences wrongly found, of a file or of its held half."""
    found = missed = wrong = 0
    rows: dict[str, dict[str, list[str]]] = read_plain(
        (ROOM / f"sentences_{name}.yaml").read_text(encoding="utf-8")
    )
    for language, kinds in rows.items():
        for kind, texts in kinds.items():
            for text in texts[1::2] if held else texts:
                hit = bool(find_claims(text, language, standard()))
                found += hit and kind != "none"
                missed += kind != "none" and not hit
                wrong += hit and kind == "none"
    return found, missed, wrong


def together(names: tuple[str, ...], *, held: bool) -> dict[str, float]:
    """Recall and precision over the sentences of several files."""
    found, missed, wrong = map(sum, zip(*(counted(name, held=held) for name in names), strict=True))
    return {"recall": found / (found + missed), "precision": found / (found + wrong)}


def further(name: str, *, held: bool) -> dict[str, float]:
    """Recall and precision over the sentences of a file, or over its held half."""
    return together((name,), held=held)


@pytest.mark.parametrize("held", [False, True], ids=["all", "held-out"])
@pytest.mark.parametrize("name", FURTHER)
def test_further_sentences(name: str, held: bool) -> None:
    figures = further(name, held=held)
    print(name, "held-out" if held else "all", figures)
    assert figures["recall"] >= 0.92 and figures["precision"] >= 0.97, figures


def test_sentences_that_hint_at_an_effect_are_found_less_often() -> None:
    figures = further("fifth", held=False)
    print(figures)
    assert figures["recall"] >= 0.85 and figures["precision"] >= 0.97, figures


LATER = ("sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth", "thirteenth")
NEVER_LOOKED_AT = ("sixth", "ninth", "tenth", "thirteenth")
"""Of these the held half was never looked at, neither before nor after it was measured."""


def test_later_sentences_in_many_voices() -> None:
    figures = together(LATER, held=False)
    assert figures["recall"] >= 0.96 and figures["precision"] >= 0.98, figures


def test_later_sentences_that_were_never_looked_at() -> None:
    figures = together(NEVER_LOOKED_AT, held=True)
    assert figures["recall"] >= 0.91 and figures["precision"] >= 0.96, figures


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Mrs Healing from number nine ordered four bars."),
        ("de", "Frau Heil aus der Gasse nebenan bekam das Endstück."),
        ("en", "The word 'soothing' must not be on your label."),
        ("fr", "Évitez les mots comme apaisant, hydratant ou nourrissant."),
    ],
)
def test_a_person_s_name_and_a_word_that_is_only_talked_of_are_no_claims(language: str, text: str) -> None:
    assert not find_claims(text, language, standard())


def test_the_name_of_a_person_does_not_hide_a_claim_beside_it() -> None:
    assert find_claims("Mrs Healing says that it heals cuts.", "en", standard())
