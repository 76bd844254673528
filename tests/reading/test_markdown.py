"""Links and pictures of Markdown, and where they stand."""

from __future__ import annotations

import pytest

from saponary.reading.markdown import addresses, in_book, named, without_pictures


@pytest.mark.parametrize(
    ("address", "folder", "path"),
    [
        ("other.md", "recipes", "recipes/other.md"),
        ("./other.md#work", "recipes", "recipes/other.md"),
        ("../recipes/other.md", "pages", "recipes/other.md"),
        ("recipes/other.md", "", "recipes/other.md"),
        ("../photos/a%20b.jpg", "recipes", "photos/a b.jpg"),
        ("../../x", "recipes", "../x"),
        ("https://example.org/x.md", "recipes", None),
        ("mailto:a@example.org", "recipes", None),
        ("#here", "recipes", None),
        ("/x.md", "recipes", None),
        ("", "recipes", None),
    ],
)
def test_the_path_in_the_book(address: str, folder: str, path: str | None) -> None:
    assert in_book(address, folder) == path


def test_a_name_is_of_one_folder() -> None:
    assert named("recipes/other.md", "recipes/") == "other"
    assert named("recipes/other.html", "recipes/") is None
    assert named("pages/other.md", "recipes/") is None
    assert named(None, "recipes/") is None


TEXT = """\
One [link](a.md), the [same](a.md) and [a third][t].\r
\r
![A *bold* bar](../photos/x.jpg "title")\r
[![inner](../photos/y.jpg)](<b c.md>)\r
\r
`[code](no.md)`, and a note[^n].\r
\r
[t]: c.md "its title"\r
[^n]: See [it](d.md).\r
"""


def test_each_with_its_place() -> None:
    found = [(a.kind, a.to, a.words, TEXT[a.start :][: len(a.to)]) for a in addresses(TEXT)]
    assert found == [
        ("link", "a.md", "link", "a.md"),
        ("link", "a.md", "same", "a.md"),
        ("link", "c.md", "a third", "c.md"),
        ("picture", "../photos/x.jpg", "A bold bar", "../photos/x.jpg"),
        ("link", "b%20c.md", "inner", "b c.md>)"),
        ("picture", "../photos/y.jpg", "inner", "../photos/y.jpg"),
        ("link", "d.md", "it", "d.md"),
    ]
    first, second = [a.start for a in addresses(TEXT)][:2]
    assert first < second


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("a ![cut (1) [x]](../photos/a(1).jpg) b", "a  b"),
        ('![one](a.jpg "title")![two](<b c.jpg>)\n', "\n"),
        ("[link](a.md) and `![code](a.jpg)`", "[link](a.md) and `![code](a.jpg)`"),
        ("see [![in a link](a.jpg)](b.md)", "see [](b.md)"),
        ("none", "none"),
    ],
)
def test_pictures_may_be_left_out(text: str, left: str) -> None:
    assert without_pictures(text) == left
