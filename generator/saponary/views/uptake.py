"""What is said in place of a superfat where it is not known how much alkali something binds."""

from __future__ import annotations

from saponary.book.published import Published
from saponary.messages.message import Listed, Message, Within, message
from saponary.views import names


def unknown_uptake(computed: Published) -> Message | None:
    """`not known: Dead Sea salt binds an unknown amount of alkali`; None where all uptake is counted."""
    things = computed.figures.unknown
    if not things:
        return None
    named = tuple(Within(names.anything(computed.pantry, name)) for name in things)
    return message("figure.not-known", count=len(named), names=Listed(named))
