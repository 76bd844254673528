"""What is asked for a thing, in the currency of the book."""

from __future__ import annotations

from saponary.messages.message import Number, Value, message

_WITH_SIGN = ("EUR", "GBP", "USD", "JPY")

KEYS_BY_ID = {"money.sign.": _WITH_SIGN}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def money(amount: float, currency: str | None) -> Value:
    """`€ 7.50`; the code itself where a currency has no sign here, the number alone where the book names none."""
    number = Number(amount, 2)
    if currency is None:
        return number
    sign: Value = message(f"money.sign.{currency}") if currency in _WITH_SIGN else currency
    return message("money.amount", sign=sign, amount=number)
