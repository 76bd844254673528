"""The bad files of this folder, what each is expected to give, and those too odd to keep as files.

A file says what it expects in comments, one for each error in it and no other:

    # expect: LINE:COLUMN RULE "part of the message" hint "part of the hint"
"""

from __future__ import annotations

import codecs
import os
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from support import PLAIN

HERE = Path(__file__).resolve().parent
PLACES = {
    "classes": "classes/{name}",
    "recipes": "recipes/{name}",
    "settings": "book.yaml",
    "pantries": "pantry.yaml",
}
WRITTEN = sorted(path for folder in PLACES for path in (HERE / folder).iterdir())
_EXPECTED = re.compile(r'^# expect: (\d+):(\d+) (\S+) "(.*?)"(?: hint "(.*)")?$', re.MULTILINE)


@dataclass(frozen=True)
class Expected:
    """One finding a file must give."""

    line: int
    column: int
    rule: str
    message: str
    hint: str


def expected(path: Path) -> list[Expected]:
    """What a bad file says it gives."""
    found = _EXPECTED.findall(path.read_text(encoding="utf-8"))
    return [Expected(int(line), int(column), *words) for line, column, *words in found]


def in_book(path: Path) -> str:
    """Where a bad file stands in a book."""
    return PLACES[path.parent.name].format(name=path.name)


FRONT, NOTES = PLAIN.split("---\n", 2)[1:]


def fronted(more: str, notes: str = NOTES) -> str:
    """The plain recipe with more lines in its front matter, which begin on line 13."""
    return f"---\n{FRONT}{more}---\n{notes}"


@dataclass(frozen=True)
class Odd:
    """A bad file made on the spot, the rule and place of its one error, and part of its message."""

    name: str
    make: Callable[[Path], object]
    at: tuple[int, int]
    message: str
    file: str = ""

    @property
    def reported(self) -> str:
        return self.file or f"recipes/{self.name}"


def _text(content: str) -> Callable[[Path], object]:
    return lambda path: path.write_bytes(content.encode())


def _bytes(content: bytes) -> Callable[[Path], object]:
    return lambda path: path.write_bytes(content)


def _huge(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(50_000_000)


def _outside(path: Path) -> None:
    target = path.parents[2] / "outside.md"
    target.write_text(PLAIN)
    path.symlink_to(target)


_FOLDED = "private: {a: &a [" + ", ".join("x" * 9) + "]" + "".join(
    f", {new}: &{new} [{', '.join([f'*{old}'] * 9)}]" for old, new in zip("abcd", "bcde", strict=True)
) + "}\n"  # fmt: skip

ODD = (
    Odd("empty.md", _bytes(b""), (1, 1), "this file is empty"),
    Odd("blank.md", _bytes(b" \n\t\n"), (1, 1), "this file is empty"),
    Odd("blank-front.md", _text("---\n# nothing\n---\nNotes.\n"), (2, 1), "the front matter is empty"),
    Odd("fifty-megabytes.md", _huge, (1, 1), "this file has 50 MB"),
    Odd("binary.md", _bytes(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"), (3, 1), "this is not a text file"),
    Odd("zero-byte.md", _bytes(PLAIN.encode().replace(b"Plain", b"Pl\0ain")), (2, 10), "this is not a text file"),
    Odd("utf-16.md", _bytes(codecs.BOM_UTF16_LE + PLAIN.encode("utf-16-le")), (1, 1), "this file is in UTF-16"),
    Odd("utf-16-bare.md", _bytes(PLAIN.encode("utf-16-le")), (1, 2), "this is not a text file"),
    Odd("latin-1.md", _bytes("---\ntitle: Crème brûlée\n".encode("latin-1")), (2, 10), "the byte 0xe8 is not UTF-8"),
    Odd("latin-1-marked.md", _bytes(codecs.BOM_UTF8 + b"---\xe8\n"), (1, 4), "the byte 0xe8 is not UTF-8"),
    Odd("half-a-letter.md", _bytes(PLAIN.encode() + "é".encode()[:1]), (15, 1), "the byte 0xc3 is not UTF-8"),
    Odd("carriage-returns.md", _text(PLAIN.replace(": 5 %", ": 5").replace("\n", "\r")), (9, 11), "'5' has no unit"),
    Odd("marked-and-windows.md", _text("\ufeff" + PLAIN.replace("5.0 %", "9.0 %").replace("\n", "\r\n")),
        (12, 13), "superfat is signed as 9.0 %"),
    Odd("fences-with-spaces.md", _text(PLAIN.replace("---\n", "--- \t\n").replace("5.0 %", "9.0 %")),
        (12, 13), "superfat is signed as 9.0 %"),
    Odd("control.md", _text(PLAIN.replace("Plain", "Pl\x1b[31main")), (2, 10), "a control character, U+001B"),
    Odd("control-in-notes.md", _text(PLAIN + "A bell\x07.\n"), (15, 7), "a control character, U+0007"),
    Odd("deep-flow.md", _text(fronted("private:\n" + " [\n" * 100_000)), (44, 2), "nested too deeply"),
    Odd("deep-map.md", _text(fronted("private: " + "{a: " * 100_000 + "\n")), (13, 130), "nested too deeply"),
    Odd("deep-block.md", _text(fronted("private:\n" + "".join(" " * n + "a:\n" for n in range(1, 700)))),
        (44, 32), "nested too deeply"),
    Odd("deep-dashes.md", _text(fronted("private:\n" + "- " * 100_000 + "\n")), (14, 61), "nested too deeply"),
    Odd("thousandfold.md", _text(fronted(_FOLDED)), (13, _FOLDED.index("&e [*d, *d") + 9), "aliases expand to too many values"),
    Odd("aliases.md", _text(fronted("private: [&a x" + ", *a" * 60 + "]\n")), (13, 217), "too many aliases"),
    Odd("keys.md", _text(fronted("private:\n" + "".join(f"  k{n}: v\n" for n in range(30_000)))),
        (1014, 3), "too many keys in one map"),
    Odd("values.md", _text(fronted("private: [" + "x," * 30_000 + "]\n")), (13, 39983), "too many values"),
    Odd("long-title.md", _text("---\ntitle: " + "O" * 900_000 + PLAIN[20:]), (2, 8), "this is too long"),
    Odd("long-amount.md", _text(fronted("cut: " + "9" * 900_000 + "\n")), (13, 6), "too long for a quantity"),
    Odd("long-key.md", _text(fronted("? " + "k" * 900_000 + "\n: x\n")), (13, 3), "unknown key 'kkkk"),
    Odd("long-tag.md", _text(fronted("private: !" + "t" * 900_000 + " x\n")), (13, 10), "the tag '!tttt"),
    Odd("long-front.md", _text(fronted("private: " + "x" * 1_100_000 + "\n")), (2, 1), "this is too large"),
    Odd("directives.md", _text("---\n" + "".join(f"%TAG !{n}! b\n" for n in range(50_000)) + "---\n"),
        (2, 1), "directives (%) are not read"),
    Odd("braces.md", _text(PLAIN + "{a}" * 200_000), (14, 1), "more than 2000 braces"),
    Odd("spaces-in-a-figure.md", _text(PLAIN + "{lye =" + " " * 900_000 + "\n"), (15, 1), "stands in braces"),
    Odd("ticks.md", _text(PLAIN + "a " + "`" * 900_000 + "\n\n{lie}"), (17, 1), "no figure 'lie'"),
    Odd("fences.md", _text(PLAIN + "```a`\n" * 40_000 + "\n{lie}"), (40_016, 1), "no figure 'lie'"),
    Odd("link-out.md", _outside, (1, 1), "this link leads out of the book"),
    Odd("link-round.md", lambda path: path.symlink_to(path), (1, 1), "this"),
    Odd("link-nowhere.md", lambda path: path.symlink_to("gone.md"), (1, 1), "this link leads nowhere"),
    Odd("folder.md", lambda path: path.mkdir(), (1, 1), "this is not a file"),
    Odd("pipe.md", os.mkfifo, (1, 1), "this is not a file"),
    Odd("two words.md", _text(PLAIN), (1, 1), "cannot serve as one"),
    Odd("Capital.md", _text(PLAIN), (1, 1), "cannot serve as one"),
    Odd("ending.MD", _text(PLAIN), (1, 1), "cannot serve as one"),
    Odd(".md", _text(PLAIN), (1, 1), "cannot serve as one"),
    Odd("two\nlines.md", _text(PLAIN), (1, 1), "cannot serve as one", r"recipes/two\nlines.md"),
    Odd("red\x1b[31m.md", _text(PLAIN), (1, 1), "cannot serve as one", r"recipes/red\x1b[31m.md"),
    Odd(os.fsdecode(b"caf\xe9.md"), _text(PLAIN), (1, 1), "cannot serve as one", r"recipes/caf\udce9.md"),
)  # fmt: skip
