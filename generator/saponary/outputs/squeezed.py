"""A style sheet without what only its writers read: comments, indents and empty lines. One rule stays one line."""

from __future__ import annotations

import re

_PART = re.compile(
    rb"""("(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*')"""  # what is quoted stays
    rb"|(?:\s|/\*.*?\*/)*([{};,])(?:\s|/\*.*?\*/)*"
    rb"|((?:\s|/\*.*?\*/)+)",
    re.DOTALL,
)


def squeezed(style: bytes) -> bytes:
    """The same rules in fewer bytes (CSS Syntax Level 3: white space round braces, commas and semicolons means nothing)."""
    return _PART.sub(_kept, style).strip()


def _kept(part: re.Match[bytes]) -> bytes:
    quoted, mark, space = part.groups()
    if quoted:
        return bytes(quoted)
    if mark:
        return b"}\n" if mark == b"}" else bytes(mark)
    # A comment alone parts two words, and is no white space.
    return b" " if re.search(rb"\s", re.sub(rb"/\*.*?\*/", b"", space, flags=re.DOTALL)) else b"/**/"
