"""What is said in place of a superfat where it is not known how much alkali something binds."""

from __future__ import annotations

from saponary.book.published import Published
from saponary.messages.message import Message, message
from saponary.views import names


def unknown_uptake(computed: Published) -> Message | None:
    """`not known: Dead Sea salt binds an unknown amount of alkali`; None where all uptake is counted."""
    things = computed.figures.unknown
    if not things:
        return None
    return message("figure.not-known", count=len(things), names=names.together(computed.pantry, things))
