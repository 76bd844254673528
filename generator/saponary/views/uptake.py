"""What is said in place of a superfat where no lye is weighed, or nobody knows how much of it something binds."""

from __future__ import annotations

from saponary.book.published import Published
from saponary.messages.message import Message, message
from saponary.views import names


def unknown_uptake(computed: Published) -> Message | None:
    """`not given: no lye is weighed here`, or `not known: Dead Sea salt binds an unknown amount of alkali`; None where all uptake is counted."""
    if not computed.resolved.formula.weighs_lye:
        return message("figure.no-lye")
    things = computed.figures.unknown
    if not things:
        return None
    return message("figure.not-known", count=len(things), names=names.together(computed.pantry, things))
