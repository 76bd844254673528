"""Names in one Unicode form: é as one letter and as e with an accent are the same name.

Keyboards write the one (NFC), some file systems and archives give back the other (NFD); nobody sees which.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Collection

NAME_PATTERN = "^[a-z0-9]+(-[a-z0-9]+)*$"
"""How an id is told in a JSON Schema."""


def in_form(text: str) -> str:
    """The text in the form in which it is compared."""
    return text if text.isascii() else unicodedata.normalize("NFC", text)


def kept_as(name: str, names: Collection[str]) -> str | None:
    """The name among `names` that a maker means by `name`: the very same, else one in another form; or None."""
    if name in names:
        return name
    if name.isascii():
        return None
    wanted = in_form(name)
    return next((one for one in sorted(names) if in_form(one) == wanted), None)
