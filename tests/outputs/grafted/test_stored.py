"""Fragments as bytes and back; and what is none, because somebody else may have written it."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from outputs.grafted.made_up import cut, fragment
from saponary.outputs.grafted import stored
from saponary.outputs.grafted.fragment import Piece
from saponary.outputs.grafted.stored import NoFragment, from_bytes, to_bytes

GOOD = fragment("soap", 2)
DATA = to_bytes(GOOD)


def test_it_comes_back_as_it_was() -> None:
    assert from_bytes(DATA) == GOOD
    assert to_bytes(from_bytes(DATA)) == DATA


def altered(**more: Any) -> bytes:
    line, _, body = DATA.partition(b"\n")
    return json.dumps(json.loads(line) | more).encode() + b"\n" + body


@pytest.mark.parametrize(
    "more",
    [
        {"kids": [99]},
        {"kids": [-1]},
        {"kids": ["0"]},
        {"pages": [[0, 1e9, 300, []]]},
        {"pages": [[0, 200, 300]]},
        {"anchors": {"a": [7, 0, 0]}},
        {"marks": [[1, 7, 0, 0, 0]]},
        {"ids": {"a": 1_000}},
        {"objects": []},
        {"objects": [[10**12, False]]},
        {"objects": None},
        {"faces": [{"name": "../../x"}]},
        {"parents": []},
    ],
)
def test_one_that_tells_of_what_is_not_there_is_none(more: dict[str, Any]) -> None:
    with pytest.raises(NoFragment):
        from_bytes(altered(**more))


@pytest.mark.parametrize("place", [0, 1, len(DATA) // 2, len(DATA) - 1])
def test_one_cut_short_is_none(place: int) -> None:
    with pytest.raises(NoFragment):
        from_bytes(DATA[:place])


@given(st.binary(max_size=200))
def test_any_bytes_are_a_fragment_or_none(data: bytes) -> None:
    for tried in (data, data + b"\n" + data, DATA.replace(b"2", data[:3])):
        try:
            from_bytes(tried)
        except NoFragment:
            continue


def test_one_that_is_too_large_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stored, "MOST_BYTES", len(DATA) - 1)
    with pytest.raises(NoFragment):
        from_bytes(DATA)


HOSTILE = [
    cut("<</Type /Annot/Subtype /Link/A <</Type /Action/S /JavaScript/JS (app.alert\\(1\\))>>>>"),
    cut("<</Type /Annot/Subtype /Link/A <</S /#4aavaScript>>>>"),
    cut("<</A <</S /Launch/F (calc.exe)>>>>"),
    cut("<</A <</S /GoToR/F (other.pdf)>>>>"),
    cut("<</AA <</O 1>>>>"),
    cut("<</Type /Filespec/EF <</F 1>>>>"),
    cut("<<>>\nendobj\n1 0 obj <<>>"),
    cut("<<>> % a comment"),
    cut("(an open (bracket)"),
    cut("<</Length 3>>\nstream\nabc\nendstream\nendobj\n7 0 obj\n<<>>", stream=True),
    cut("<</Length 99>>\nstream\nabc\nendstream", stream=True),
    cut("<<>>", stream=True),
]
"""Actions by ISO 32000-1, 12.6.4; the frame of objects by 7.3.10; names with numbers by 7.3.5."""


@pytest.mark.parametrize("piece", HOSTILE)
def test_one_that_would_do_more_than_show_is_none(piece: Piece) -> None:
    data = to_bytes(replace(GOOD, objects=(*GOOD.objects, piece)))
    with pytest.raises(NoFragment):
        from_bytes(data)


def test_words_in_a_string_or_a_stream_do_nothing() -> None:
    words = cut("<</Type /StructElem/Alt (/JavaScript \\(\\) 1 0 obj %)/K []>>")
    shown = cut("<</Length 7>>\nstream\n/Launch\nendstream", stream=True)
    more = replace(GOOD, objects=(*GOOD.objects, words, shown))
    assert from_bytes(to_bytes(more)) == more
