"""Markdown of the maker's as HTML."""

from __future__ import annotations

import html5lib
import pytest

from saponary.views.prose import Prose
from saponary.views.prose_links import Links, PaperLinks
from saponary.views.site import PhotoSet

PHOTO = PhotoSet(
    1600,
    1200,
    (
        ("image/webp", "photos/x-480.webp 480w, photos/x-1600.webp 1600w"),
        ("image/jpeg", "photos/x-480.jpg 480w, photos/x-1600.jpg 1600w"),
    ),
    "photos/x-480.jpg",
    "",
)
TO = Links(frozenset({"other-bar"}), "../../")
PROSE = Prose({}, TO, {"x.jpg": PHOTO})


def block(text: str, prose: Prose = PROSE) -> str:
    made = str(prose.block(text))
    parser = html5lib.HTMLParser(strict=False)
    parser.parseFragment(made)
    assert not parser.errors, parser.errors
    return made


def test_a_table_can_be_moved_sideways_from_the_keyboard() -> None:
    made = block("| oil | note |\n|---|--:|\n| olive | it *thickens* |")
    assert made.startswith('<div class="wide" tabindex="0">\n<table>') and made.endswith("</table>\n</div>\n")
    assert '<th scope="col">oil</th>\n<th class="n" scope="col">note</th>' in made and "style" not in made
    assert "<td>olive</td>" in made and "<em>thickens</em>" in made


def test_a_photo_alone_is_a_figure_of_its_size_with_its_words() -> None:
    made = block('![a *white* bar "here"](../photos/x.jpg "On day 42 <b>")')
    assert made.startswith('<figure class="photo in-text">') and "<p>" not in made
    assert 'srcset="../../photos/x-480.webp 480w, ../../photos/x-1600.webp 1600w"' in made
    assert (
        'src="../../photos/x-480.jpg" width="1600" height="1200" alt="a white bar &quot;here&quot;"' in made
    )
    assert "<figcaption>On day 42 &lt;b&gt;</figcaption>" in made


def test_a_photo_within_a_sentence_stays_there() -> None:
    made = block("See ![a bar](../photos/x.jpg), there.")
    assert made.startswith("<p>See <picture>") and "figure" not in made


def test_a_photo_that_is_not_to_be_shown_leaves_nothing() -> None:
    assert block("One.\n\n![secret](../photos/y.jpg)\n\nTwo.") == "<p>One.</p>\n<p>Two.</p>\n"


@pytest.mark.parametrize("to", ["https://example.org/x.jpg", "x.jpg", "../photos/../x.jpg"])
def test_a_picture_from_elsewhere_is_its_words(to: str) -> None:
    assert block(f"One.\n\n![a *bar*]({to})") == "<p>One.</p>\n<p>a <em>bar</em></p>\n"


def test_paper_has_the_widest() -> None:
    made = block("![a bar](../photos/x.jpg)", Prose({}, PaperLinks(frozenset()), {"x.jpg": PHOTO}))
    assert '<img src="photos/x-1600.jpg"' in made and "source" not in made


def test_a_footnote_stands_below_and_leads_back() -> None:
    made = block(
        "One[^a], two[^b], one again[^a].\n\n[^b]: Second.\n[^a]: First\n    and *more*.\n\n    A line.\n"
    )
    assert made.count('href="#note-1"') == 2 and made.count('href="#note-2"') == 1
    assert 'id="from-note-1"' in made and 'id="from-note-1-2"' in made and 'href="#from-note-1"' in made
    assert made.index("First") < made.index("A line.") < made.index("Second.")
    assert "<em>more</em>" in made


def test_footnotes_of_several_texts_are_kept_apart() -> None:
    made = block("One[^a].\n\n[^a]: Note.", Prose({}, TO, name="plain-bar"))
    assert 'id="plain-bar-note-1"' in made and 'href="#plain-bar-note-1"' in made


def test_a_footnote_that_is_a_photo() -> None:
    made = block("One[^a].\n\n[^a]: ![a bar](../photos/x.jpg)")
    assert '<div class="footnote" id="note-1">' in made and '<figure class="photo in-text">' in made


def test_a_link_to_a_recipe_leads_to_its_page_or_is_its_words() -> None:
    made = block("[A](other-bar.md#work), [B](hidden.md), [C](../photos/x.jpg), [D](https://example.org)")
    assert '<a href="../../recipes/other-bar/index.html#work">A</a>, B, C, ' in made
    assert '<a href="https://example.org">D</a>' in made
    on_a_page = Prose({}, Links(frozenset({"other-bar"}), "../", "pages"))
    assert '"../recipes/other-bar/index.html"' in block("[A](../recipes/other-bar.md)", on_a_page)
    assert "<a" not in block("[A](other-bar.md)", on_a_page)
