"""How a finding names the one thing it is about, so that a waiver can name the same."""

from __future__ import annotations


def placed(what: str, portion: str | None) -> str:
    """An ingredient, and the portion it goes into: the same clay may be right in one alone."""
    return what if portion is None else f"{what} in {portion}"
