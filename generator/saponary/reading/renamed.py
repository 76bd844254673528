"""Names that were once written and are now others: whoever writes the old one is told the new one."""

from __future__ import annotations

from collections.abc import Collection

RENAMED = {
    "stated": "signed",
    "bench": "per-bench",
    "strewn": "sprinkle",
    "stated-too-coarse": "signed-too-coarse",
    "open": "public",
}
"""Keys, rules and editions, the old name to the new."""

_ELSEWHERE = {"bench": "maker"}
"""A name that was used for two things: the second of them."""


def renamed(word: str, known: Collection[str]) -> str | None:
    """The new name of `word`, where it is among those `known` here."""
    found = [names[word] for names in (RENAMED, _ELSEWHERE) if word in names]
    return next((new for new in found if new in known), None)
