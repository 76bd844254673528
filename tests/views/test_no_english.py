"""Said in a language of nonsense, a page or a sheet holds nothing but nonsense, the maker's words and numbers."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from html import unescape

import pytest

from outputs.pdfs.desk import desk_for
from saponary.messages import speaker as speakers
from saponary.outputs.pdf_make import sheets
from support import BOOKS, REPOSITORY, proof_of
from views.paper.test_blanks import nonsense_speaker

TABLES = REPOSITORY / "generator" / "saponary" / "tables"
_SOURCES = ("recipes/*.md", "batches/*", "classes/*.md", "pages/*.md", "pantry.yaml", "book.yaml")
_UNSEEN = re.compile(r"<(style|script|head|code)\b.*?</\1>", re.DOTALL)
_INLINE = re.compile(r"</?(?:strong|em)\b[^>]*>")
_NONSENSE = re.compile(r"\bq[bcdfghjklmnpqrtz]{9}\b")
_SHOWN = re.compile(r'(?:alt|aria-label)="([^"]*)"|>([^<]+)<')
_PLACED = re.compile(r"\{[^{}:]*\}|`[^`]*`")
"""A figure or a piece of code in a maker's text."""
_FIGURE = re.compile(r"<data\b[^>]*>[^<]*</data>|<span class=\"blank gap\"></span>")

_WORD = re.compile(r"[^\W\d_]+")

ELSEWHERE = {
    "remarks": "findings of the checks, which are not said by the catalogue",
    "asides": "remarks of an ingredient list",
    "label-text": "an ingredient list, whose names are made elsewhere",
    "inci": "what an ingredient list calls things, and commonly",
}
"""Lists, by their class, whose texts come from other rooms and are English yet."""

DEFAULTS = ("a soap maker s recipe book",)
"""The title of a book that gives itself none."""

SYMBOLS = frozenset(
    {"g", "kg", "oz", "ml", "l", "mm", "mg", "c", "cas", "un", "ghs", "ics", "figures", "json", "x", "n"}
)
"""Units, numbers of registers and the like: the same in every language."""


def plain(text: str) -> str:
    return " ".join(_WORD.findall(text.casefold()))


def corpus(book: str) -> str:
    """Every word that the maker wrote, and every name of the tables, in their order."""
    files = [path for pattern in _SOURCES for path in sorted(BOOKS[book].glob(pattern)) if path.is_file()]
    files += sorted(TABLES.glob("*.yaml"))
    texts = [plain(part) for path in files for part in _PLACED.split(path.read_text(encoding="utf-8"))]
    return f" {' / '.join([*texts, *DEFAULTS])} "


def pieces(html: str) -> Iterator[str]:
    """Runs of words that the catalogue did not say."""
    html = _FIGURE.sub("<hr>", _INLINE.sub(" ", _UNSEEN.sub("<hr>", html)))
    for name in ELSEWHERE:
        html = re.sub(
            rf'<(ul|details|table|p) class="[^"]*\b{name}\b[^"]*".*?</\1>', "", html, flags=re.DOTALL
        )
    for alt, text in _SHOWN.findall(html):
        for piece in _NONSENSE.split(unescape(alt or text)):
            yield from re.split(r"[0-9.,;:()/·%°×–-]+", piece)


@pytest.fixture
def other_language(monkeypatch: pytest.MonkeyPatch) -> None:
    english, other = speakers.speaker, nonsense_speaker()
    for module in list(sys.modules.values()):
        if getattr(module, "speaker", None) is english:
            monkeypatch.setattr(module, "speaker", lambda *_: other)


@pytest.mark.usefixtures("other_language")
@pytest.mark.parametrize("book", ["demo", pytest.param("starters", marks=pytest.mark.slow)])
def test_no_english_but_the_makers(book: str, other_language: None) -> None:
    known = corpus(book)
    context = desk_for(proof_of(book), "maker")
    pages = {path: data.decode() for path, data in context.files.items() if path.endswith(".html")}
    # A label is an ingredient list, whose names are made elsewhere; its cautions are tested by their ids.
    kinds = ("recipe-sheet", "whole-book", "class-handout")
    pages |= {sheet.path: sheet.html for sheet in sheets(context, kinds)}
    found: dict[str, set[str]] = {}
    for path, html in pages.items():
        for piece in pieces(html.replace(context.site.tables, "")):
            words = plain(piece)
            while words.partition(" ")[0] in SYMBOLS:
                words = words.partition(" ")[2]
            if words and f" {words} " not in known:
                found.setdefault(words, set()).add(path)
    assert not found, "\n".join(f"{words!r} in {min(paths)}" for words, paths in sorted(found.items()))
