"""The rule `notes`."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import GOOD, found, recipe

BREAKER = recipe(GOOD + "\nThis is <b>bold</b>.\n")
TOLD = [
    (
        "recipes/tried.md:17:9",
        "warning",
        "<b> is shown as it stands: notes hold no HTML",
        "write Markdown, such as **bold** or *slanted*",
    ),
    (
        "recipes/tried.md:17:16",
        "warning",
        "</b> is shown as it stands: notes hold no HTML",
        "write Markdown, such as **bold** or *slanted*",
    ),
]
NEIGHBOUR = recipe(
    GOOD + "\nThis is **bold**, `<b>` is code, 3 < 4, and <https://example.org> is an address.\n"
)


@pytest.mark.parametrize(
    ("notes", "says", "hint"),
    [
        ("![a bar](photos/x.jpg)", "the picture 'photos/x.jpg' is not shown", "photo: {file:"),
        (
            "See [the other](other-bar.md).",
            "there is no recipe 'other-bar' to lead to",
            "known recipes: tried",
        ),
        ("A note[^1].", "[^1] is not a footnote here", "in brackets"),
    ],
)
def test_what_a_page_cannot_show(notes: str, says: str, hint: str, tmp_path: Path) -> None:
    (one,) = found(tmp_path, recipe(f"{GOOD}\n{notes}\n"), "notes")
    assert one.severity == "warning" and says in one.message and hint in one.hint


def test_what_it_can_show_is_left_alone(tmp_path: Path) -> None:
    notes = (
        "See [this](tried.md) and [the web](https://example.org). <!-- <b> ![x](y.jpg) -->\n\n```\n<b>\n```\n"
    )
    assert found(tmp_path, recipe(f"{GOOD}\n{notes}"), "notes") == []
