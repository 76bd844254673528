"""The Markdown of a maker's texts as HTML: figures in it, photos, footnotes, headings below those of the page."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from html import escape
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.rules_core import StateCore
from markdown_it.token import Token

from saponary.quantity.rounding import as_decimal
from saponary.reading.markdown import new_parser
from saponary.views.prose_links import safe_link

OPEN, CLOSE = "\ue000", "\ue001"
"""Round the number of a figure, where it stands in a text that is still to be parsed."""
_MARK = re.compile(f"{OPEN}(\\d+){CLOSE}")


@dataclass(frozen=True)
class Placed:
    """A figure found in a text: as written in the source, and what to show for it."""

    source: str
    text: str
    value: float

    @property
    def html(self) -> str:
        return f'<data class="figure" value="{as_decimal(self.value)}">{escape(self.text)}</data>'


_APOSTROPHE = re.compile(r"(?<=[^\W\d_])'(?=[^\W\d_]|s?\b)")


def typographic(text: str) -> str:
    """An apostrophe after a letter as it is set in type; the other signs stand as they were written."""
    return _APOSTROPHE.sub("\u2019", text)


@cache
def parser() -> MarkdownIt:
    made = new_parser()
    made.validateLink = safe_link  # type: ignore[method-assign]
    made.core.ruler.push("figures", _finish)
    for kind in ("figure", "photo"):
        made.add_render_rule(kind, _render_made)
    for kind, render in _RENDERED.items():
        made.add_render_rule(kind, render)
    return made


def _render_made(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    return str(tokens[index].content)


def _finish(state: StateCore) -> None:
    """After parsing: figures into text, headings shifted, photos made, links led to pages."""
    _shift_headings(state.tokens, state.env.get("top", 3))
    placed = state.env.get("placed", ())
    for token in state.tokens:
        _cell(token)
        if token.children is not None:
            token.children = _links(_pictured(_split(token.children, placed), placed, state.env), state.env)
        elif token.content:
            token.content = _restored(token.content, placed)
    state.tokens = list(_standing_alone(state.tokens))


def _cell(token: Token) -> None:
    """Cells stand as their column does by a class, since a page allows no styles of its own; heads say what they head."""
    side = str(token.attrs.pop("style", "")).removeprefix("text-align:")
    if side in _SIDES:
        token.attrs["class"] = _SIDES[side]
    if token.type == "th_open":
        token.attrs["scope"] = "col"


_SIDES = {"right": "n", "center": "mid"}


def _split(tokens: Sequence[Token], placed: Sequence[Placed]) -> list[Token]:
    out: list[Token] = []
    for token in tokens:
        if token.type == "text" and OPEN not in token.content:
            token.content = typographic(token.content)
            out.append(token)
            continue
        if token.type != "text":
            token.content = _restored(token.content, placed)
            for name, value in token.attrs.items():
                if isinstance(value, str) and (token.type, name) != ("image", "title"):
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
        text = text.replace("%EE%80%80", OPEN).replace("%EE%80%81", CLOSE)
    return _MARK.sub(lambda m: placed[int(m[1])].source, text) if OPEN in text else text


def _pictured(tokens: Sequence[Token], placed: Sequence[Placed], env: Mapping[str, Any]) -> list[Token]:
    """Pictures as the photos that they name; those that may not be shown here are left out, others are their words."""
    out: list[Token] = []
    for token in tokens:
        if token.type != "image":
            out.append(token)
            continue
        words = _split(token.children or [], placed)
        alt = " ".join(bare(words).split())
        shown = env["links"].picture(str(token.attrs.get("src", "")), alt, env["photos"])
        if shown is None:
            out += words
        elif shown:
            title = escape(typographic(str(token.attrs.get("title", ""))))
            below = _MARK.sub(lambda figure: placed[int(figure[1])].html, title)
            out.append(Token("photo", "", 0, content=shown, meta={"text": "", "below": below}))
    return out


def _standing_alone(tokens: Sequence[Token]) -> Iterator[Token]:
    """A paragraph that is one photo becomes a figure, with its title below; an empty one goes."""
    index = 0
    while index < len(tokens):
        token = tokens[index]
        if token.type == "paragraph_open" and tokens[index + 1].type == "inline":
            inside = [one for one in tokens[index + 1].children or [] if one.type != "softbreak"]
            if all(one.type == "photo" for one in inside):
                yield from (_figure(one) for one in inside)
                # What a footnote has after its text stands before the end of the paragraph.
                rest = next(n for n in range(index, len(tokens)) if tokens[n].type == "paragraph_close")
                yield from tokens[index + 2 : rest]
                index = rest + 1
                continue
        yield token
        index += 1


def _figure(photo: Token) -> Token:
    below = f"\n<figcaption>{photo.meta['below']}</figcaption>" if photo.meta["below"] else ""
    content = f'<figure class="photo in-text">\n{photo.content}{below}\n</figure>\n'
    return Token("photo", "", 0, content=content, meta=photo.meta, block=True)


def _links(tokens: list[Token], env: Mapping[str, Any]) -> list[Token]:
    """Links lead where the text's own `Links` say, or nowhere."""
    out: list[Token] = []
    dropped = False
    for token in tokens:
        if token.type == "link_open":
            address = env["links"].lead(str(token.attrs.get("href", "")))
            dropped = address is None
            if address is not None:
                token.attrs["href"] = address
        if not (dropped and token.type in ("link_open", "link_close")):
            out.append(token)
    return out


def _note_id(token: Token, env: Mapping[str, Any]) -> str:
    name, number = env["name"], token.meta["id"] + 1
    return f"{name}-note-{number}" if name else f"note-{number}"


def _render_reference(
    renderer: object, tokens: Sequence[Token], index: int, options: object, env: Mapping[str, Any]
) -> str:
    token = tokens[index]
    note, again = _note_id(token, env), token.meta["subId"]
    own = f"from-{note}" + (f"-{again + 1}" if again else "")
    return f'<sup><a href="#{note}" id="{own}" role="doc-noteref">{token.meta["id"] + 1}</a></sup>'


def _render_note(
    renderer: object, tokens: Sequence[Token], index: int, options: object, env: Mapping[str, Any]
) -> str:
    note, number = _note_id(tokens[index], env), tokens[index].meta["id"] + 1
    back = f'<a href="#from-{note}" role="doc-backlink">{number}</a>'
    return f'<div class="footnote" id="{note}">\n<p class="number">{back}</p>\n<div>\n'


def _render_as(text: str) -> Callable[..., str]:
    return lambda *_: text


_RENDERED: dict[str, Callable[..., str]] = {
    "footnote_ref": _render_reference,
    "footnote_block_open": _render_as('<div class="footnotes" role="doc-endnotes">\n'),
    "footnote_block_close": _render_as("</div>\n"),
    "footnote_open": _render_note,
    "footnote_close": _render_as("</div>\n</div>\n"),
    "footnote_anchor": _render_as(""),
    "table_open": _render_as('<div class="wide" tabindex="0">\n<table>\n'),
    "table_close": _render_as("</table>\n</div>\n"),
}
"""Footnotes stand at the end of their text, and the number of each leads back. A wide table is moved sideways."""


def _shift_headings(tokens: Sequence[Token], top: int) -> None:
    """The highest heading becomes `top`, and no level below it is ever skipped."""
    levels = [int(token.tag[1]) for token in tokens if token.type == "heading_open"]
    highest, last = min(levels, default=1), top - 1
    for token in tokens:
        if token.type == "heading_open":
            last = min(top + int(token.tag[1]) - highest, last + 1, 6)
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{last}"


def bare(tokens: Sequence[Token]) -> str:
    out: list[str] = []
    for token in tokens:
        if token.children is not None:
            out.append(bare(token.children))
        elif token.type == "figure":
            out.append(token.meta["text"])
        elif token.type in ("softbreak", "hardbreak"):
            out.append(" ")
        else:
            out.append(token.content)
    return "".join(out)
