"""From bytes to text: each fault has its place, and line endings stay."""

from __future__ import annotations

import pytest

from saponary.reading.decode import decoded


def test_the_text_is_the_bytes() -> None:
    heading = "A heading\n=======\n> quoted\n\n<<<<<<<< eight\n"
    assert decoded(heading.encode(), "a.md") == (heading, None)
    assert decoded("\ufeffä\r\nb\rc\n".encode(), "a.md") == ("\ufeffä\r\nb\rc\n", None)


@pytest.mark.parametrize(
    ("data", "place", "message"),
    [
        (b"", "a.md:1:1", "this file is empty"),
        (b" \n", "a.md:1:1", "this file is empty"),
        ("title: a".encode("utf-16"), "a.md:1:1", "this file is in UTF-16"),
        (b"a: 1\r\nb\0c", "a.md:2:2", "this is not a text file"),
        ("ä: 1\rö".encode() + b"\xff", "a.md:2:2", "the byte 0xff is not UTF-8"),
        (
            b"a: 1\r\n<<<<<<< HEAD\r\nb: 1\r\n",
            "a.md:2:1",
            "two versions of this file stand here, as git left them: '<<<<<<< HEAD'",
        ),
        (
            b"a\n=======\n>>>>>>> theirs",
            "a.md:3:1",
            "two versions of this file stand here, as git left them: '>>>>>>> theirs'",
        ),
        (b"\xef\xbb\xbfa\xff", "a.md:1:2", "the byte 0xff is not UTF-8"),
    ],
)
def test_a_fault_has_its_place(data: bytes, place: str, message: str) -> None:
    text, fault = decoded(data, "a.md")
    assert text is None and fault is not None
    assert (str(fault.place), fault.message) == (place, message)
