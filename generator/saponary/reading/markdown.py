"""The Markdown of a maker's texts, and the links and pictures in it, each with its place."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator
from functools import cache
from typing import Literal, NamedTuple
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.token import Token
from mdit_py_plugins.footnote import footnote_plugin

_ELSEWHERE = re.compile(r"[a-z][a-z0-9+.\-]*:|[/\\#?]|\Z", re.IGNORECASE)
_INLINE = re.compile(r"\]\(\s*(?:<(?P<angled>[^<>\n]*)>|(?P<bare>[^\s<>()]*(?:\([^\s<>()]*\)[^\s<>()]*)*))")
_DEFINED = re.compile(
    r"^ {0,3}\[[^\]\n]{1,200}\]:\s*(?:<(?P<angled>[^<>\n]*)>|(?P<bare>[^\s<>]+))", re.MULTILINE
)
_END_OF_LINE = re.compile(r"\r\n|\r|\n")


def new_parser() -> MarkdownIt:
    """CommonMark with tables and footnotes; HTML is shown as it stands."""
    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    footnote_plugin(parser, inline=False)
    return parser


@cache
def _parser() -> MarkdownIt:
    return new_parser()


def parsed(text: str) -> list[Token]:
    """A text's tokens, as every page and sheet has them."""
    return _parser().parse(text)


def in_book(address: str, folder: str) -> str | None:
    """The path in the book of what a relative address in a file of `folder` names; None where it leads elsewhere,
    as to the web or to a place on the page. A path that leads out of the book begins with `..`."""
    if _ELSEWHERE.match(address):
        return None
    path = unquote(re.split("[?#]", address, maxsplit=1)[0])
    return posixpath.normpath(posixpath.join(folder, path))


class Address(NamedTuple):
    """An address that a text leads to or shows: as parsed, where it stands, and the words of it."""

    kind: Literal["link", "picture"]
    to: str
    start: int
    words: str


def addresses(text: str) -> Iterator[Address]:
    """The links and pictures of a text, footnotes too, in the order in which they are shown."""
    if "[" not in text:
        return
    begins = [0, *(end.end() for end in _END_OF_LINE.finditer(text)), len(text)]
    used: set[int] = set()
    for token in parsed(text):
        if token.map is None or token.children is None:
            continue
        first, last = begins[min(token.map[0], len(begins) - 1)], begins[min(token.map[1], len(begins) - 1)]
        for kind, to, words in _found(token.children):
            yield Address(kind, to, _place(text, to, (first, last), used), words)


def _found(tokens: list[Token]) -> Iterator[tuple[Literal["link", "picture"], str, str]]:
    for index, token in enumerate(tokens):
        if token.type == "image":
            yield "picture", str(token.attrs.get("src", "")), _plain(token.children or [])
            yield from _found(token.children or [])
        elif token.type == "link_open":
            yield "link", str(token.attrs.get("href", "")), _plain(_until_closed(tokens[index + 1 :]))


def _until_closed(tokens: list[Token]) -> list[Token]:
    ends = [index for index, token in enumerate(tokens) if token.type == "link_close"]
    return tokens[: ends[0]] if ends else tokens


def _plain(tokens: list[Token]) -> str:
    return "".join(_plain(token.children) if token.children else token.content for token in tokens)


def _place(text: str, to: str, block: tuple[int, int], used: set[int]) -> int:
    """Where an address is written, in its own block or as a definition; the beginning of the block where it is
    not found."""
    for pattern, start, end in ((_INLINE, *block), (_DEFINED, 0, len(text))):
        for match in pattern.finditer(text, start, end):
            group = "bare" if match["angled"] is None else "angled"
            at = match.start(group)
            if at not in used and _parser().normalizeLink(match[group]) == to:
                if pattern is _INLINE:
                    used.add(at)
                return at
    return block[0]


PAGES, PHOTOS, RECIPES = "pages/", "photos/", "recipes/"


def named(path: str | None, folder: str) -> str | None:
    """The name that a path in the book has in this folder (`recipes/`), without `.md`; None for another path."""
    name = (path or "").removesuffix(".md")
    inside = path is not None and path.startswith(folder) and name != path
    return name.removeprefix(folder) if inside else None


def pictured(text: str, folder: str) -> Iterator[tuple[str, Address]]:
    """The photos that a text shows, by their path inside `photos/`."""
    for address in addresses(text):
        path = in_book(address.to, folder) if address.kind == "picture" else None
        if path is not None and path.startswith(PHOTOS):
            yield path.removeprefix(PHOTOS), address


_BEFORE = re.compile(r"!\[(?:[^\[\]]|\[[^\]]*\])*\]\(\s*<?\Z")
_AFTER = re.compile(r"""\s*(?:"[^"]*"|'[^']*'|\([^)]*\))?\s*\)""")


def without_pictures(text: str) -> str:
    """A text without the pictures that stand in its sentences; one that is defined elsewhere in it stays."""
    parts: list[str] = []
    done = 0
    for address in addresses(text):
        begin = text.rfind("![", done, address.start)
        if address.kind != "picture" or begin < 0 or not _BEFORE.match(text[begin : address.start]):
            continue
        written = _INLINE.match(text, text.rfind("](", begin, address.start))
        closed = _AFTER.match(text, written.end()) if written else None
        if closed is not None:
            parts.append(text[done:begin])
            done = closed.end()
    return "".join((*parts, text[done:]))
