"""One stage of the work order: what is said, weighed, laid and left to the maker's own words."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from saponary.messages.message import Message, Value
from saponary.views.pots import PortionView
from saponary.views.weigh_sheet import WeighTable


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
