"""What an ingredient does with alkali, in words for a hint that names it."""

from __future__ import annotations


def with_alkali(thing: object) -> str:
    """'' for an ingredient that leaves alkali alone, or is an oil, which is there to be saponified."""

    def has(*facts: str) -> bool:
        return any(getattr(thing, fact, 0.0) > 0 for fact in facts)

    if getattr(thing, "ester", "") == "acid":
        return "is a free fatty acid, which binds alkali at once"
    if not getattr(thing, "known", True):
        return "binds an unknown amount of alkali"
    if has("acid"):
        return "is acid: it binds alkali"
    if has("base", "base_most"):
        return "brings alkali"
    return "brings fat" if has("fat") else ""
