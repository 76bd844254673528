"""From the bytes of a book's file to its text. Line endings are left as they are, so that a position
is a position in the very file, and what is written back is what was taken.
"""

from __future__ import annotations

import re

from saponary.reading.files import Files, Unread
from saponary.reading.findings import Finding, Place

_UNMERGED = re.compile(rb"^(?:<{7}|>{7}|\|{7})(?:[ \t][^\r\n]*)?(?=\r?$)", re.MULTILINE)
"""How git begins and ends a place that it could not merge, and what it was before. The line between the two
sides, seven signs of equality, may be a heading in Markdown."""
_MERGE = (
    "keep one of the two at each such place, take git's lines out, and run: saponary proof; "
    "a figure that neither of them had is signed anew with: saponary sign NAME"
)


def text_of(files: Files, name: str) -> tuple[str | None, Finding | None]:
    """The text of a file of the book, or the finding that says why it cannot be had."""
    data = files.read(name)
    if isinstance(data, Unread):
        return None, Finding("reading", "error", Place(name), data.message, data.hint)
    return decoded(data, name)


def decoded(data: bytes, name: str) -> tuple[str | None, Finding | None]:
    """The text in a file's bytes, or the finding that says why there is none."""

    def fault(message: str, hint: str, at: int | None = None) -> tuple[None, Finding]:
        place = Place(name) if at is None else _place(name, data, at)
        return None, Finding("reading", "error", place, message, hint)

    if not data.strip():
        recipe = "write `---`, the front matter, `---` and the notes"
        return fault("this file is empty", recipe if name.endswith(".md") else "write to it, or delete it")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return fault("this file is in UTF-16", "save it as UTF-8")
    if b"\0" in data:
        return fault("this is not a text file", "save it as UTF-8 text", data.index(b"\0"))
    found = unmerged(data, name)
    if found is not None:
        return None, found
    try:
        return data.decode("utf-8"), None
    except UnicodeDecodeError as error:
        at = error.start
        return fault(f"the byte 0x{data[at]:02x} is not UTF-8", "save the file as UTF-8", at)


def unmerged(data: bytes, name: str) -> Finding | None:
    """What git left in a file that it could not merge, where it did."""
    found = _UNMERGED.search(data)
    if found is None:
        return None
    message = f"two versions of this file stand here, as git left them: {_told(found)!r}"
    return Finding("reading", "error", _place(name, data, found.start()), message, _MERGE)


def _told(found: re.Match[bytes]) -> str:
    return printable(found[0].decode("utf-8", "replace"))


def _place(name: str, data: bytes, at: int) -> Place:
    before = data[:at].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    line = before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")
    row = before.count(b"\n") + 1
    return Place(name, row, len(line) + (0 if row == 1 and data.startswith(b"\xef\xbb\xbf") else 1))


def printable(text: str) -> str:
    """A maker's text, or a file's name of whatever bytes, as a message may show it: control characters as escapes."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)
