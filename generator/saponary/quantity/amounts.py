"""How much of an addition or a liquid, as a maker writes it: plain, for so much oil, or as a share of the water."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from saponary.quantity.units import MASS, MAX_LENGTH, VOLUME, Quantity, QuantityError, clean, parse


@dataclass(frozen=True)
class Amount:
    """How much of an addition: a weight, a volume, or either for so much oil, or soap in a rebatch.

    `per_grams_of_oil` is None for a plain amount; `2 % of oils` is 2 g per 100 g. `of` is the word that says
    of what, where one is written.
    """

    quantity: Quantity
    per_grams_of_oil: float | None
    of_water: bool = False
    """Whether it is a share of the recipe's water, in per cent."""
    of: Literal["oils", "soap", ""] = ""

    @property
    def is_volume(self) -> bool:
        return self.quantity.unit in VOLUME

    @property
    def text(self) -> str:
        return self.quantity.text


_OF_OILS = re.compile(r"\s(?:(?:of|on)\s+)?(?:the\s+)?(?:oils?|(?P<soap>soap))$", re.IGNORECASE)
_OF_WATER = re.compile(r"\s(?:of|on)\s+(?:the\s+)?water$", re.IGNORECASE)
_PER = re.compile(r"^(?P<head>.*[a-zA-Z])\s*(?:/|\bper\b)\s*(?P<tail>[\d./ ]*[a-zA-Z]+)$", re.IGNORECASE)
AMOUNT_UNITS = (*MASS, *VOLUME)


def parse_amount(text: object) -> Amount:
    """Read the amount of an addition or liquid.

    Accepts `60 g`, `1 tbsp`, `2 % of oils`, `2 % of soap`, `8 g/kg`, `1 tbsp/kg`, `1 oz per 15 oz`,
    `25 % of water`.
    """
    example = "12 g, 1 tbsp, 2 % of oils or 8 g/kg"
    if not isinstance(text, str):
        raise QuantityError("an amount is needed here", f"write {example}")
    if len(text) > MAX_LENGTH:
        raise QuantityError(f"{text[:24]!r}… is too long for an amount", f"write {example}")
    tidy = re.sub(r"\bper\s+cent\b", "%", clean(text), flags=re.IGNORECASE)
    if _OF_WATER.search(tidy):
        return _share_of_water(_OF_WATER.sub("", tidy), text)
    base = _OF_OILS.search(tidy)
    head = tidy[: base.start()] if base else tidy
    of: Literal["oils", "soap", ""] = "" if base is None else "soap" if base["soap"] else "oils"
    per = _PER.match(head)
    if per:
        top = parse(per["head"], units=AMOUNT_UNITS, example=example)
        tail = per["tail"].strip()
        each = parse(
            tail if tail[0].isdigit() or tail[0] == "." else f"1 {tail}", units=tuple(MASS), example="8 g/kg"
        )
        if each.value <= 0:
            raise QuantityError(f"{tidy!r} is for no oil at all", "write it as 8 g/kg")
        return Amount(Quantity(top.value, top.unit, top.decimals, text), each.grams, of=of)
    if head != tidy:
        share = parse(head, units=("%", ""), example="2 % of oils")
        if share.unit == "" and share.value > 1:
            raise QuantityError(f"{tidy!r} is more than the oils themselves", f"write {head} % of oils")
        percent = share.value if share.unit == "%" else share.value * 100
        return Amount(Quantity(percent, "g", share.decimals, text), 100.0, of=of)
    if tidy.endswith("%"):
        raise QuantityError(
            f"{tidy!r} does not say of what", f"write {tidy} of oils; a liquid may have {tidy} of water"
        )
    plain = parse(tidy, units=AMOUNT_UNITS, example=example)
    return Amount(Quantity(plain.value, plain.unit, plain.decimals, text), None)


def _share_of_water(head: str, text: str) -> Amount:
    share = parse(head, units=("%", ""), example="25 % of water")
    percent = share.value if share.unit == "%" else share.value * 100
    if not 0 <= percent <= 100:
        raise QuantityError(f"{text.strip()!r} is more than the water itself", "a share from 0 % to 100 %")
    return Amount(Quantity(percent, "%", share.decimals, text), None, of_water=True)
