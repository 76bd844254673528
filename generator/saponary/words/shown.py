"""A text as a reader sees it, each character with its place in the source.

YAML quoting is undone, then Markdown: emphasis inside a word vanishes, so that a claim
split by stars is whole again; code, addresses and figures are taken out; the end of a
heading, list item or table cell becomes an empty line. Every pattern is bounded and
looks at a character a fixed number of times.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import unescape

BREAK = "\n\n"
"""Parts two sentences."""


@dataclass(frozen=True)
class Shown:
    """What is shown, and for each character the offset it stands for; one more for the end."""

    text: str
    at: list[int]


class _Writer:
    def __init__(self, source: Shown) -> None:
        self.source = source
        self.parts: list[str] = []
        self.at: list[int] = []

    def copy(self, start: int, end: int) -> None:
        self.parts.append(self.source.text[start:end])
        self.at += self.source.at[start:end]

    def put(self, text: str, where: int) -> None:
        self.parts.append(text)
        self.at += [self.source.at[where]] * len(text)

    def done(self) -> Shown:
        return Shown("".join(self.parts), [*self.at, self.source.at[-1]])


def raw(text: str, offset: int = 0) -> Shown:
    """The text as it stands; offsets count from `offset`."""
    return Shown(text, list(range(offset, offset + len(text) + 1)))


_DOUBLE = re.compile(
    r"\\(?:x(?P<x>[0-9a-fA-F]{2})|u(?P<u>[0-9a-fA-F]{4})|U(?P<U>[0-9a-fA-F]{8})"
    r"|(?P<line>\r?\n[ \t]*)|(?P<other>.))",
    re.DOTALL,
)
_ESCAPED = {"n": "\n", "t": "\t", "r": "\n", "N": "\n", "L": "\n", "P": "\n", "_": " ", "0": " ", "e": " "}
_SINGLE = re.compile("''")
_BLOCK_HEAD = re.compile(r"[|>][^\r\n]*")


def scalar(text: str, style: str, offset: int = 0) -> Shown:
    """A YAML scalar as written, its quotes and escapes undone; `style` is that of its span."""
    source = raw(text, offset)
    if style not in ("'", '"', "|", ">"):
        return source
    out = _Writer(source)
    if style in "|>":
        head = _BLOCK_HEAD.match(text)
        out.copy(head.end() if head else 0, len(text))
        return out.done()
    done = 1
    for escape in (_DOUBLE if style == '"' else _SINGLE).finditer(text, 1, max(1, len(text) - 1)):
        out.copy(done, escape.start())
        out.put(_meaning(escape) if style == '"' else "'", escape.start())
        done = escape.end()
    out.copy(done, max(done, len(text) - 1))
    return out.done()


def _meaning(escape: re.Match[str]) -> str:
    code = escape["x"] or escape["u"] or escape["U"]
    if code:
        return chr(min(int(code, 16), 0x10FFFF))
    if escape["line"] is not None:
        return ""
    return _ESCAPED.get(escape["other"], escape["other"])


_FENCE = r"(?P<fence>^ {0,3}(?P<mark>`{3,}+(?=[^`\n]*$)|~{3,}+)[^\n]*\n(?s:.*?)(?:^ {0,3}(?P=mark)[`~]*[ \t]*\r?$|\Z))"
_LINES = (
    r"(?P<footnote>^ {0,3}\[\^[^\]\s]{1,200}\]:)"
    r"|(?P<definition>^ {0,3}\[[^\]\n]{1,200}\]:[ \t]*(?:<[^<>\n]*>|[^\s]*)(?=[ \t]*(?:\r?$|[\"'(])))"
    r"|(?P<rule>^ {0,3}(?:=+|-{2,}+|\*{3,}+|_{3,}+)[ \t]*\r?$)"
    r"|(?P<block>^(?:[ \t]{0,12}(?:>|[-+*](?=\s)|\d{1,9}[.)](?=\s)|#{1,6}(?=\s)))+)"
    r"|(?P<cell>\|)"
)
_INLINE = (
    r"(?=[\\&{<h\[\]!*~_`\u00ad\u200b-\u200d\u2060\ufeff])(?:"
    r"(?P<escape>\\[!-/:-@\[-`{-~])"
    r"|(?P<comment><!--(?s:.*?)(?:-->|\Z))"
    r"|(?P<entity>&(?:\#\d{1,7}|\#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,31});)"
    r"|(?P<figure>\{[^{}]{1,300}\})"
    r"|(?P<url><[a-z]{2,20}:[^<>\s]{0,2000}>|https?://[^\s<>()\[\]]{1,2000})"
    r"|(?P<gone>\[\^[^\]\s\[]{1,200}\]|\](?:\((?:<[^<>\n]{0,2000}>|[^()\s\[\]]{0,2000})\)?|\[[^\[\]\n]{0,200}\])|!?\[|\]"
    r"|[*\u00ad\u200b-\u200d\u2060\ufeff]+|~~+|_+(?=\*)|(?<=\*)_+)"
    r"|(?P<space>_+|`+))"
)
_BLOCKS = re.compile(f"{_FENCE}|{_LINES}|{_INLINE}", re.MULTILINE)
_RUN = re.compile(_INLINE, re.MULTILINE)
_TICKS = re.compile(r"(?<![`\\])`++")
_PARAGRAPH = re.compile(r"\n[ \t]*\r?\n")


def unmarked(source: Shown, *, blocks: bool, code: bool = False) -> Shown:
    """Markdown undone. Without `blocks` it is one run of text, as front matter holds. `code` is shown too where asked."""
    spans = _code_spans(source.text) if blocks and not code else {}
    return _Unmarking(source, _BLOCKS if blocks else _RUN, spans, code).done()


class _Unmarking:
    """Copies a text without its marks, one piece at a time. `spans` are code spans, ends by their start."""

    def __init__(self, source: Shown, pattern: re.Pattern[str], spans: Mapping[int, int], code: bool) -> None:
        self.text, self.pattern, self.spans, self.code = source.text, pattern, spans, code
        self.out = _Writer(source)
        self.heading = -1
        """Where the heading that was begun ends; below zero where none was."""

    def done(self) -> Shown:
        at = 0
        while (piece := self.pattern.search(self.text, at)) is not None:
            self._copy(at, piece.start())
            at = self._piece(piece)
        self._copy(at, len(self.text))
        return self.out.done()

    def _copy(self, start: int, end: int) -> None:
        if start <= self.heading < end:
            self.out.copy(start, self.heading)
            self.out.put(BREAK, self.heading)
            start, self.heading = self.heading, -1
        self.out.copy(start, end)

    def _piece(self, piece: re.Match[str]) -> int:
        """Undo one mark; where to go on."""
        kind, where, end = piece.lastgroup, piece.start(), piece.end()
        if kind in ("mark", "fence", "footnote", "definition", "rule", "cell"):
            self.out.put(BREAK, where)
            if self.code and piece["fence"]:
                return where + len(piece["mark"])
        elif kind == "block":
            self._block(piece)
        elif kind == "escape":
            self.out.copy(where + 1, end)
        elif kind == "entity":
            self.out.put(unescape(piece[0]), where)
        elif kind == "figure":
            self.out.put(" 0 ", where)
        elif kind in ("url", "space", "comment"):
            end = self.spans.get(where, end)
            self.out.put(" ", where)
        return end

    def _block(self, piece: re.Match[str]) -> None:
        """What begins a quotation, an entry of a list or a heading."""
        self.out.put(BREAK if piece[0].strip(" \t>") else " ", piece.start())
        if piece[0].endswith("#"):
            end = self.text.find("\n", piece.end())
            self.heading = end if end >= 0 else len(self.text)


def _code_spans(text: str) -> dict[int, int]:
    """Code spans by their start: ticks closed by as many ticks in the same paragraph."""
    found: dict[int, int] = {}
    start = 0
    for stop in [*(m.end() for m in _PARAGRAPH.finditer(text)), len(text)]:
        runs = [run.span() for run in _TICKS.finditer(text, start, stop)]
        later: dict[int, list[int]] = {}
        for opens, closes in reversed(runs):
            later.setdefault(closes - opens, []).append(opens)
        done = start
        for opens, closes in runs:
            length = closes - opens
            same = later[length]
            while same and same[-1] <= opens:
                same.pop()
            if opens >= done and same:
                done = same[-1] + length
                found[opens] = done
        start = stop
    return found
