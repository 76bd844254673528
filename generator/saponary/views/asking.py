"""How a customer asks for a soap, or buys one."""

from __future__ import annotations

from typing import NamedTuple

from markupsafe import Markup

from saponary.schema.shop import Shop
from saponary.views.prose import Prose


class Asking(NamedTuple):
    """Where a link leads that asks, the address as it is shown, and what becomes of a question."""

    ask: str
    contact: str
    note: Markup | None


def asking(shop: Shop) -> Asking:
    """Empty where the maker names no contact, or the edition does not show it."""
    contact = shop.contact or ""
    ask = contact if contact.startswith("http") else f"mailto:{contact}" if contact else ""
    return Asking(ask, contact, Prose({}).inline(shop.note) if shop.note else None)
