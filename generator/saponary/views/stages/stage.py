"""One stage of the work order: what is said, weighed, laid and left to the maker's own words."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from saponary.messages.message import Message, Value, message, short
from saponary.quantity.units import Quantity
from saponary.views.pots import PortionView
from saponary.views.weigh_sheet import WeighTable


def kept_at(wanted: Quantity | None, key: str) -> tuple[Message, ...]:
    """How warm something is to be, where the recipe says so, in the unit that it is written in."""
    if wanted is None:
        return ()
    return (message(key, temperature=short(wanted.number, unit=wanted.unit)),)


@dataclass(frozen=True)
class Stage:
    """One stage: sentences, weighings, portions, and the maker's own steps."""

    id: str
    title: Message
    lead: tuple[Value, ...] = ()
    tables: tuple[WeighTable, ...] = ()
    portions: tuple[PortionView, ...] = ()
    order: tuple[Value, ...] = ()
    steps: tuple[Markup, ...] = ()
    close: tuple[Value, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether it has nothing to say."""
        return not (self.lead or self.tables or self.portions or self.steps or self.order)
