"""The rule `notes`."""

from __future__ import annotations

import pytest

from checks.books import GOOD, found, put, recipe

BREAKER = recipe(GOOD + "\nThis is <b>bold</b>.\n")
TOLD = [
    (
        "recipes/tried.md:17:9",
        "warning",
        "<b> would show as these very signs: notes hold no HTML",
        "write Markdown, such as **bold** or *slanted*",
    ),
]
NEIGHBOUR = recipe(
    GOOD + "\nThis is **bold**, `<b>` is code, 3 < 4, and <https://example.org> is an address.\n"
)


OTHER = put("title: Plain Bar", "title: Other Bar")
HIDDEN = put("title: Plain Bar", "title: Hidden Bar\neditions: [maker]")
DRAFT = put(
    "signed:\n  superfat: SUPERFAT\n  formula: FINGERPRINT\n", "", put("title: Plain", "title: Draft")
)
BESIDE = {
    "recipes/other-bar.md": OTHER,
    "recipes/hidden-bar.md": HIDDEN,
    "recipes/draft-bar.md": DRAFT,
    "photos/bar.jpg": "",
}


@pytest.mark.parametrize(
    ("notes", "column", "says", "hint"),
    [
        (
            "![a bar](https://example.org/x.jpg)",
            10,
            "'https://example.org/x.jpg' is not one of the book's photos",
            "did you mean '../photos/bar.jpg'?",
        ),
        (
            "![a bar](../pictures/bra.jpg)",
            10,
            "'../pictures/bra.jpg' is not one",
            "did you mean '../photos/bar.jpg'?",
        ),
        ("See [the\nother](ohter-bar.md).", 8, "there is no recipe 'ohter-bar'", "did you mean 'other-bar'?"),
        (
            "See [it][1].\n\n[1]: ohter-bar.md",
            6,
            "there is no recipe 'ohter-bar'",
            "did you mean 'other-bar'?",
        ),
        ("| a |\n|---|\n| [x](gone.md) |", 7, "there is no recipe 'gone'", "known recipes"),
        ("A note[^1].\n\n[^1]: See [x](gone.md).", 15, "there is no recipe 'gone'", "known recipes"),
        (
            "See [it](other-bar.html).",
            10,
            "is not a file of the book that has a page",
            "did you mean 'other-bar'?",
        ),
        ("See [it](../../../etc/passwd).", 10, "is not a file of the book that has a page", "known recipes"),
        ("See [it](draft-bar.md).", 10, "'draft-bar' is a draft and has no page", "saponary sign draft-bar"),
        ("See [it](hidden-bar.md).", 10, "is in the editions maker alone", "waive this"),
        ("A note[^1].", 7, "there is no footnote '1'", "[^1]: what it says"),
        ("A note[^w].\n\n[^why]: So.\n\nB[^why]", 7, "there is no footnote 'w'", "known footnotes: why"),
        ("[^1]: So.", 1, "nothing leads to the footnote '1'", "put [^1]"),
    ],
)
def test_what_a_page_cannot_show(notes: str, column: int, says: str, hint: str) -> None:
    (one,) = found(recipe(f"{GOOD}\n{notes}\n", **BESIDE), "notes")
    assert one.severity == "warning" and says in one.message and hint in one.hint
    lines = notes.count("\n", 0, notes.find(one.about)) if one.about in notes else 0
    assert (one.place.line, one.place.column) == (GOOD.count("\n") + 2 + lines, column)


def test_what_it_can_show_is_left_alone() -> None:
    notes = (
        "See [this](tried.md), [that](other-bar.md#work), [there](#notes) and [the web](https://example.org).[^1] "
        "<!-- <b> ![x](y.jpg) [^2] -->\n\n![a bar](../photos/bar.jpg)\n\n[^1]: So, [that](other-bar.md).\n\n"
        "```\n<b> [^3] [x](gone.md)\n```\n"
    )
    assert found(recipe(f"{GOOD}\n{notes}", **BESIDE), "notes") == []


def test_a_photo_that_is_not_there_is_told_with_the_nearest() -> None:
    (one,) = found(recipe(GOOD + "\nA ![bar](../photos/bra.jpg)\n", **BESIDE), "photos")
    assert str(one.place).endswith(":10") and one.severity == "error"
    assert (one.message, one.hint) == ("there is no photo photos/bra.jpg", "did you mean 'bar.jpg'?")


def test_a_photo_in_the_notes_has_words() -> None:
    (one,) = found(recipe(GOOD + "\n![](../photos/bar.jpg)\n", **BESIDE), "photo-words")
    assert one.place.column == 5 and "![a white bar](../photos/bar.jpg)" in one.hint
    assert found(recipe(GOOD + "\n![a bar](../photos/bar.jpg)\n", **BESIDE), "photo-words") == []
