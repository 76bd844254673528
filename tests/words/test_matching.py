"""Positions, denials, Markdown, languages, and texts made to be slow."""

from __future__ import annotations

import time

import pytest

from saponary.words.matching import Hit
from saponary.words.phrases import FormError, phrases
from saponary.words.shown import scalar
from saponary.words.standard import standard
from support import find_claims


def found(text: str, language: str = "en") -> list[Hit]:
    return find_claims(text, language, standard())


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("First.\n\nIt treats eczema.", "treats eczema"),
        ("It tr**eats ecz**ema now", "tr**eats ecz**ema"),
        ("It **treats** _acne_ well", "treats** _acne"),
        ("See [acne-prone](https://example.org/x) skin", "acne"),
        ("[he](x)als nothing but you", "he](x)als"),
        ("it he\u00adals you", "he\u00adals"),
        ("ECZE\u0301MA", "ECZE\u0301MA"),
        ("Weigh 3.5 g approx. Then it disinfects", "disinfects"),
        ("![treats acne](a.jpg)", "treats acne"),
        ("# Antibacterial\nplain", "Antibacterial"),
        ("athlete\u2019s foot", "athlete\u2019s foot"),
        ("anti-\nbacterial", "anti-\nbacterial"),
    ],
)
def test_a_claim_is_found_where_it_stands(text: str, words: str) -> None:
    hits = found(text)
    assert [text[hit.start : hit.end] for hit in hits] == [words]


def test_an_entity_hides_nothing() -> None:
    text = "It h&#101;als"
    assert [(hit.start, hit.words) for hit in found(text)] == [(3, "heals")]


@pytest.mark.parametrize(
    "text",
    [
        "`treats acne`",
        "~~~\ntreats acne\n~~~\n",
        "```\ncures acne",
        "[notes](https://example.org/cures-acne)",
        "<https://example.org/acne>",
        "Treat it gently. Eight weeks of cure.",
    ],
)
def test_code_and_addresses_are_not_read(text: str) -> None:
    assert found(text) == []


def test_sentences_end_where_a_reader_sees_an_end() -> None:
    """Words of two sentences, list items, cells or of a heading and its text make no phrase together."""
    for text in (
        "It treats us well. Acting on it.",
        "- we treat\n- wounds in wood",
        "# Heat kills\nbacteria-like specks",
        "| kills | bacteria |",
    ):
        assert not any("treat" in h.words or "kill" in h.words.lower() for h in found(text)), text
    assert [
        h.sentence for h in found("Stir approx. 5 times. It relieves acne e.g. on 2.5 cm of skin. Stop.")
    ] == ["It relieves acne e.g. on 2.5 cm of skin"]


def test_denying_a_disease_still_names_it() -> None:
    (hit,) = found("It does not treat eczema.")
    assert (hit.words, hit.denied) == ("treat eczema", True)
    assert not found("It treats eczema.")[0].denied


@pytest.mark.parametrize(
    "text",
    [
        "This bar is not antibacterial.",
        "It doesn't disinfect.",
        "It does not heal, disinfect or moisturise.",
        "We make no claim that it moisturises.",
    ],
)
def test_denying_an_effect_is_no_claim(text: str) -> None:
    assert found(text) == []


def test_what_only_looks_like_a_denial() -> None:
    assert found("It not only moisturises.") and found("No other soap moisturises so well.")


def test_languages() -> None:
    assert [h.entry.id for h in found("Wirkt antibakteriell.", "de-AT")] == ["de-keime"]
    assert found("Wirkt antibakteriell.", "fr") == []
    every = found("Heilt Akne. Il soulage les rougeurs. It moisturises.", "it")
    assert [h.entry.id for h in every] == ["de-leiden", "fr-apaise", "moisturises"]
    assert all(len(language.entries) >= 25 for language in standard().languages.values())


def test_the_end_of_a_compound_is_found_in_all_its_forms() -> None:
    """What German joins: *mucken stands for Stechmücken and Mücken, *zart/a for samtzarte."""
    assert [h.entry.id for h in found("Vertreibt Stechmücken.", "de")] == ["de-insekten"]
    assert [h.entry.id for h in found("Für samtzarte Hände.", "de")] == ["de-zart"]
    with pytest.raises(FormError):
        phrases("*end", "de", {})


def test_british_and_american_spelling() -> None:
    for one, other in (
        ("moisturises", "moisturizes"),
        ("body odour", "body odor"),
        ("anti-ageing", "anti-aging"),
        ("sanitised", "sanitized"),
    ):
        assert [h.entry.id for h in found(f"It is {one}.")] == [h.entry.id for h in found(f"It is {other}.")]


def test_yaml_scalars_keep_their_places() -> None:
    raw = '"It h\\x65als \\"you\\""'
    shown = scalar(raw, '"', 100)
    assert shown.text == 'It heals "you"'
    assert shown.at[shown.text.index("heals")] == 100 + raw.index("h\\x65als")
    assert scalar("'it''s'", "'").text == "it's"
    assert scalar(">-  # heals\n  plain", ">").text.strip() == "plain"


def test_the_standard_lists_are_sound() -> None:
    """Every form can be read; every entry says why and where from; no neutral wording is itself a claim."""
    words = standard()
    ids = [entry.id for language in words.languages.values() for entry in language.entries]
    assert len(ids) == len(set(ids))
    for code, language in words.languages.items():
        for entry in language.entries:
            for form in (*entry.forms, *entry.needs, *entry.unless, *entry.near):
                assert phrases(form, code, language.sets)
            assert set(entry.why) == {"us", "eu"} and all(entry.why.values())
            assert entry.source.how in {"verified", "second-hand", "memory"}
            assert entry.source.how == "memory" or entry.source.publication in words.publications
            assert found(entry.neutral, code) == []


@pytest.mark.parametrize(
    "form", ["", "… heal", "heal ~", "heal/q", "@nowhere", "h*", "a b c d e f g h i j k l m"]
)
def test_a_bad_form_is_refused(form: str) -> None:
    with pytest.raises(FormError):
        phrases(form, "en", standard().languages["en"].sets)


@pytest.mark.slow
@pytest.mark.parametrize(
    "piece",
    [
        "a",
        " ",
        "\n",
        "a ",
        "heal ",
        "heals. ",
        "skin soft ",
        "*",
        "`a",
        "[",
        "](<a",
        "{a",
        "&",
        "\\",
        "<ab:",
        "\n# a",
    ],
    ids=repr,
)
def test_hostile_texts_are_read_in_time(piece: str) -> None:
    found("warm up")
    text = piece * (1_000_000 // len(piece))
    started = time.perf_counter()
    found(text)
    assert time.perf_counter() - started < 15
