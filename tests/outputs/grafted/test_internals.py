"""What is relied on of WeasyPrint and pydyf beyond what they document, one by one, on a page that they set.

A new version of theirs that holds something in another way fails here at the test with its name, and nothing
else of the press needs to be looked at.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from types import SimpleNamespace
from typing import Any

import pytest

from saponary.outputs.grafted import internals
from saponary.outputs.grafted.fragment import Face, Target
from saponary.outputs.grafted.internals import Moved
from saponary.outputs.pdf_engine import opened, settings

pytestmark = pytest.mark.slow

PAGE = """<!doctype html><html lang="en"><head><title>A page</title><style>
@font-face { font-family: "Source Sans Pro"; src: url("press-fonts/SourceSansPro-Regular.ttf") }
@page { size: 100mm 80mm; margin: 10mm; font-family: "Source Sans Pro"; @top-left { content: "0123456789" } @top-right { content: string(none) } }
html { font-family: "Source Sans Pro"; break-before: left } h1 { bookmark-level: 2 }
</style></head><body><h1 id="top">Heading</h1><p><a href="#top">inside</a> <a href="https://example.org/a">outside</a></p>
<table><tr><th scope="col">Head</th></tr><tr><td>Cell</td></tr></table>
<p style="break-before: page">Second page.</p></body></html>"""


@cache
def page() -> Any:
    """The document as laid out, what its PDF held when it was generated, and the glyphs of its fonts."""
    html, _ = opened({}, PAGE)
    document = html.render(**settings())
    found = SimpleNamespace(document=document)

    def look(pdf: Any) -> None:
        found.objects = internals.objects(pdf)
        found.count = len(found.objects)
        found.pages = internals.page_numbers(pdf)
        found.root = internals.pages_root(pdf)
        found.fonts = found.objects[internals.fonts_number(pdf)].data
        found.top = internals.document_element(pdf)["S"]
        found.parents = internals.parent_tree(pdf)
        found.places = internals.destinations(pdf)
        found.links = [dict(link) for link in internals.links(pdf)]
        stream = found.objects[internals.numbered(found.objects[found.pages[0]]["Contents"])]
        found.lines = internals.lines_of(stream)

    internals.generated(document, settings(), look)
    return found


def test_objects_stand_at_their_numbers() -> None:
    assert page().count > 20


def test_pages_by_their_numbers() -> None:
    assert len(page().pages) == 2 and page().root == 1


def test_fonts_are_one_dictionary_by_the_names_in_content_streams() -> None:
    names = internals.fonts(page().document)
    assert names
    assert all(b"/" + name.encode() in page().fonts for name in names)
    assert any(line.startswith(b"/" + next(iter(names)).encode()) for line in page().lines)


def test_the_structure_tree_has_one_document_and_a_key_for_each_page_and_link() -> None:
    assert page().top == "/Document"
    assert len(page().parents) == 4


def test_named_destinations() -> None:
    ((name, place),) = page().places.items()
    assert name == "top" and internals.numbered(place[0]) == page().pages[0]


def test_links_inside_have_a_name_and_others_an_address() -> None:
    assert ["Dest" in link for link in page().links] == [True, False]
    assert page().links[1]["A"]["URI"].string == "https://example.org/a"


def test_bookmarks_have_a_level_and_a_place() -> None:
    (mark,) = internals.marks(page().document)
    assert (mark.level, mark.title, mark.target.page) == (2, "Heading", 0)
    assert isinstance(mark.target, Target) and 150 < mark.target.y < 227


def test_boxes_in_the_margin_are_there_even_where_they_are_empty() -> None:
    assert internals.margin_boxes(page().document.pages[0]) == {"top-left": "0123456789", "top-right": ""}


def test_the_root_says_which_side_the_first_page_is_on() -> None:
    html, _ = opened({}, PAGE + "<style>@page :left { margin-left: 20mm }</style>")
    first, second = html.render(**settings()).pages
    assert first._page_box.margin_left > second._page_box.margin_left


def test_glyphs_that_are_put_into_a_font_are_embedded() -> None:
    document = page().document
    name = next(iter(internals.fonts(document)))
    before = internals.faces(document)[0]
    assert "Z" not in before.texts.values()
    internals.widen(
        internals.fonts(document)[name], [Face(name, "", 400, False, {9_999: "Z", 1: "1"}, {9_999: 77}, {})]
    )
    found: list[bytes] = []
    internals.generated(
        document,
        settings(),
        lambda pdf: found.extend(bytes(one.data) for one in pdf.objects[1:] if hasattr(one, "keys")),
    )
    assert any(b"9999 [77]" in data for data in found)
    after = internals.faces(document)[0]
    assert after.texts[9_999] == "Z" and before.texts.items() <= after.texts.items()


@pytest.mark.parametrize(
    ("asked", "named"),
    [
        (internals.objects, "objects"),
        (internals.page_numbers, "Kids"),
        (internals.parent_tree, "parent tree"),
        (internals.document_element, "structure tree"),
        (internals.destinations, "named destinations"),
        (internals.fonts, "hash"),
        (internals.margin_boxes, "at_keyword"),
    ],
)
def test_what_is_no_longer_there_is_named(asked: Callable[[Any], object], named: str) -> None:
    with pytest.raises(Moved, match=named):
        asked(SimpleNamespace())
