"""Safety notices, names of places and words for colours are no claims; what only looks like them is one."""

from __future__ import annotations

import pytest

from saponary.words.standard import standard
from support import find_claims


@pytest.mark.parametrize(
    ("language", "text"),
    [
        ("en", "Stop using it if a rash appears."),
        ("en", "People with eczema should ask a doctor first."),
        ("en", "The sand is from Sunburn Bay."),
        ("en", "A healthy, radiant pink."),
        ("en", "Self-heal grows by the gate."),
        ("de", "Nicht auf verletzter Haut anwenden."),
        ("de", "Ein gesundes Braun aus Kakao."),
        ("fr", "Peut provoquer une réaction allergique."),
        ("fr", "Un vert éclatant."),
    ],
)
def test_set_aside(language: str, text: str) -> None:
    assert find_claims(text, language, standard()) == []


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("It never irritates the skin.", "no-dryness"),
        ("Eczema Bay Bar", "disease"),
        ("Soothing bay leaves for sunburn.", "injuries"),
        ("A radiant complexion.", "radiant"),
    ],
)
def test_what_only_looks_like_one_of_them(text: str, entry: str) -> None:
    assert entry in {hit.entry.id for hit in find_claims(text, "en", standard())}


def test_a_word_for_the_skin_counts_where_nothing_else_was_found() -> None:
    assert [
        hit.entry.id for hit in find_claims("What it does to your skin is plain to see.", "en", standard())
    ] == ["about-skin"]
    assert "about-skin" not in {hit.entry.id for hit in find_claims("It heals the skin.", "en", standard())}
