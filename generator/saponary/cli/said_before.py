"""What a command prints that rests on the program alone: once for a program, and again from the user's cache."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress

from saponary.assets import for_user


def said_before(words: Sequence[str], make: Callable[[], str]) -> str:
    """The text that comes of these words, from the last time if it is kept."""
    kept = for_user.recall(("said", *words))
    if kept is not None:
        with suppress(ValueError):
            return kept.decode()
    text = make()
    for_user.keep(("said", *words), text.encode("utf-8", "surrogatepass"))
    return text
