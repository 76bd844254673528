"""Which words may be part of an address on the site, and of a file on every system."""

from __future__ import annotations

import re

LONGEST = 80
"""Letters; a path of a site is then far from what any system bears."""

_WORD = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_DEVICES = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")
"""Names that Windows keeps for devices, whatever their ending."""


def address_fault(word: str) -> str | None:
    """Why a word cannot be part of an address; None where it can."""
    if not _WORD.fullmatch(word):
        return "it has other letters"
    if _DEVICES.fullmatch(word):
        return "Windows keeps it for a device"
    if len(word) > LONGEST:
        return f"it has more than {LONGEST} letters"
    return None
