"""The maker's own words: Markdown with figures in it, as HTML that can do no harm.

Figures are those, and only those, that the checks see: they are found in the text as it
stands and put back once it is parsed, so that code and addresses keep what was written.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from html import escape
from typing import Any
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.rules_core import StateCore
from markdown_it.token import Token
from markupsafe import Markup

from saponary.book import quotes
from saponary.book.catalogue import Figure
from saponary.book.plain_title import plain_title, shown_figure
from saponary.views import links

_OPEN, _CLOSE = "\ue000", "\ue001"
_MARK = re.compile(f"{_OPEN}(\\d+){_CLOSE}")
_SCHEME = re.compile(r"[a-z][a-z0-9+.\-]*:", re.IGNORECASE)
_ALLOWED = ("http:", "https:", "mailto:")
_RECIPE = re.compile(r"(?:\.\./recipes/|\./)?(?P<slug>[a-z0-9]+(?:-[a-z0-9]+)*)\.md(?P<rest>#.*)?")


@dataclass(frozen=True)
class Links:
    """Where the links of a text lead. `published` are the recipes that it may lead to by their file;
    `up` leads from the page to the top of the site.
    """

    published: frozenset[str] = frozenset()
    up: str = ""

    def lead(self, address: str) -> str | None:
        """The address a link is given, or None for none: its words alone are left."""
        recipe = _RECIPE.fullmatch(address)
        if recipe is None:
            return self._other(address)
        return self._page(recipe["slug"], recipe["rest"] or "") if recipe["slug"] in self.published else None

    def _page(self, slug: str, rest: str) -> str:
        return self.up + links.recipe_page(slug) + rest

    def _other(self, address: str) -> str | None:
        return address


@dataclass(frozen=True)
class PaperLinks(Links):
    """Links as paper can hold them: to a recipe of the same paper, or to the web; others are text."""

    def _page(self, slug: str, rest: str) -> str:
        return f"#recipe-{slug}"

    def _other(self, address: str) -> str | None:
        return address if address.lower().startswith(_ALLOWED) else None


@dataclass(frozen=True)
class Placed:
    """A figure found in a text: as written in the source, and what to show for it."""

    source: str
    text: str
    value: float

    @property
    def html(self) -> str:
        return f'<data class="figure" value="{self.value!r}">{escape(self.text)}</data>'


@dataclass(frozen=True)
class Prose:
    """Turns texts of one recipe (or of the book, without figures) into HTML."""

    figures: Mapping[str, Figure]
    links: Links = Links()

    def block(self, text: str, *, top: int = 3, front: bool = False) -> Markup:
        """Paragraphs, lists, headings; the highest heading becomes one of level `top`."""
        marked, placed = self._marked(quotes.without_comments(text), code=not front)
        return Markup(_parser().render(marked, self._env(placed, top)))

    def inline(self, text: str) -> Markup:
        """One run of text, from the front matter."""
        marked, placed = self._marked(text, code=False)
        return Markup(_parser().renderInline(marked, self._env(placed, 3)))

    def plain(self, text: str) -> str:
        """The same without any markup, for a description or an alternative text."""
        marked, placed = self._marked(text, code=False)
        tokens = _parser().parseInline(marked, self._env(placed, 3))
        return " ".join(_bare(tokens).split())

    def title(self, text: str) -> str:
        """A title: no Markdown, figures as text."""
        return typographic(plain_title(text, self.figures))

    def _env(self, placed: Sequence[Placed], top: int) -> dict[str, Any]:
        return {"placed": placed, "top": top, "lead": self.links.lead}

    def _marked(self, text: str, *, code: bool) -> tuple[str, list[Placed]]:
        text = text.replace(_OPEN, "\ufffd").replace(_CLOSE, "\ufffd")
        out: list[str] = []
        placed: list[Placed] = []
        done = 0
        for quote in quotes.find(text, code=code):
            shown = self._shown(quote, text)
            if shown is None:
                continue
            out.append(f"{text[done : quote.start]}{_OPEN}{len(placed)}{_CLOSE}")
            placed.append(shown)
            done = quote.end
        return "".join(out) + text[done:], placed

    def _shown(self, quote: quotes.Quote, text: str) -> Placed | None:
        shown = shown_figure(quote, self.figures)
        return None if shown is None else Placed(text[quote.start : quote.end], *shown)


def first_sentence(text: str) -> str:
    """What a card has room for."""
    head, stop, _ = text.partition(". ")
    return f"{head}{stop.strip()}"


_APOSTROPHE = re.compile(r"(?<=[^\W\d_])'(?=[^\W\d_]|s?\b)")


def typographic(text: str) -> str:
    """An apostrophe after a letter as it is set in type; the other signs stand as they were written."""
    return _APOSTROPHE.sub("\u2019", text)


@cache
def _parser() -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    parser.validateLink = safe_link  # type: ignore[method-assign]
    parser.core.ruler.push("figures", _finish)
    parser.add_render_rule("figure", _render_figure)
    return parser


def safe_link(url: str) -> bool:
    """Web, mail, or a place inside the site; nothing that runs, and no other host without its scheme."""
    tidy = unquote(url).strip().lstrip("\x00\x01\x02\x03")
    found = _SCHEME.match(re.sub(r"[\x00-\x20]", "", tidy))
    return found[0].lower() in _ALLOWED if found else not tidy.startswith(("//", "\\", "/\\"))


def _render_figure(
    renderer: object, tokens: Sequence[Token], index: int, options: object, env: object
) -> str:
    return str(tokens[index].content)


def _finish(state: StateCore) -> None:
    """After parsing: figures into text, headings shifted, pictures to their words, links to pages."""
    _shift_headings(state.tokens, state.env.get("top", 3))
    placed = state.env.get("placed", ())
    for token in state.tokens:
        if token.children is not None:
            token.children = _links(_split(_unpictured(token.children), placed), state.env)
        elif token.content:
            token.content = _restored(token.content, placed)


def _split(tokens: Sequence[Token], placed: Sequence[Placed]) -> list[Token]:
    out: list[Token] = []
    for token in tokens:
        if token.type == "text" and _OPEN not in token.content:
            token.content = typographic(token.content)
            out.append(token)
            continue
        if token.type != "text":
            token.content = _restored(token.content, placed)
            for name, value in token.attrs.items():
                if isinstance(value, str):
                    token.attrs[name] = _restored(value, placed)
            out.append(token)
            continue
        for index, piece in enumerate(_MARK.split(token.content)):
            if index % 2:
                figure = placed[int(piece)]
                out.append(Token("figure", "", 0, content=figure.html, meta={"text": figure.text}))
            elif piece:
                out.append(Token("text", "", 0, content=typographic(piece)))
    return out


def _restored(text: str, placed: Sequence[Placed]) -> str:
    """Text that is no running text gets back what the maker wrote."""
    if "%EE%80%80" in text:
        text = text.replace("%EE%80%80", _OPEN).replace("%EE%80%81", _CLOSE)
    return _MARK.sub(lambda m: placed[int(m[1])].source, text) if _OPEN in text else text


def _unpictured(tokens: Sequence[Token]) -> list[Token]:
    out: list[Token] = []
    for token in tokens:
        out += _unpictured(token.children or []) if token.type == "image" else [token]
    return out


def _links(tokens: list[Token], env: Mapping[str, Any]) -> list[Token]:
    """Links lead where the text's own `Links` say, or nowhere."""
    out: list[Token] = []
    dropped = False
    for token in tokens:
        if token.type == "link_open":
            address = env["lead"](str(token.attrs.get("href", "")))
            dropped = address is None
            if address is not None:
                token.attrs["href"] = address
        if not (dropped and token.type in ("link_open", "link_close")):
            out.append(token)
    return out


def _shift_headings(tokens: Sequence[Token], top: int) -> None:
    """The highest heading becomes `top`, and no level below it is ever skipped."""
    levels = [int(token.tag[1]) for token in tokens if token.type == "heading_open"]
    highest, last = min(levels, default=1), top - 1
    for token in tokens:
        if token.type == "heading_open":
            last = min(top + int(token.tag[1]) - highest, last + 1, 6)
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{last}"


def _bare(tokens: Sequence[Token]) -> str:
    out: list[str] = []
    for token in tokens:
        if token.children is not None:
            out.append(_bare(token.children))
        elif token.type == "figure":
            out.append(token.meta["text"])
        elif token.type in ("softbreak", "hardbreak"):
            out.append(" ")
        else:
            out.append(token.content)
    return "".join(out)
