"""What a shop says of a soap and of itself: what is asked for it, how to ask, how to keep it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from saponary.schema.fields import Part, ShortText
from saponary.schema.seen import Public
from saponary.schema.selling import PlaceOfSale

LongText = Annotated[str, Field(max_length=4000)]

Price = Annotated[float, Field(ge=0, le=1e6, allow_inf_nan=False)]
"""In the book's own currency."""

Contact = Annotated[
    str, Field(pattern=r"^(?:[^@\s:/]+@[^@\s:/]+\.[^@\s:/]+|https?://[^\s]+)$", max_length=300)
]
"""An e-mail address, or the address of a page."""

Currency = Annotated[str, Field(pattern=r"^[A-Z]{3}$")]
"""A code of ISO 4217, such as EUR."""


class Offer(Part):
    """One soap in the shop. `text` is the maker's own, `scent` what it smells of in plain words, `stock` how many
    bars are there, `keeping` what to mind of this soap beside what holds for all."""

    text: Public[LongText] = ""
    """Your own words for buyers, one or two sentences; the summary stands where there are none.
    Example: shop: {text: A plain white bar.}
    """
    scent: Public[ShortText] = ""
    """What it smells of, in plain words. Left out, the names of the scents stand, or that it is
    unscented.
    Example: shop: {scent: lavender}
    """
    price: Public[Price | None] = None
    """What one bar costs, in the currency of book.yaml.
    Example: shop: {price: 7.50}
    """
    stock: Public[Annotated[int, Field(ge=0, le=1_000_000)] | None] = None
    """How many bars are there. Left out, the number is not told.
    Example: shop: {stock: 6}
    """
    keeping: Public[LongText] = ""
    """What to mind of this soap, beside what holds for all.
    Example: shop: {keeping: Keep it dry.}
    """


class Shop(Part):
    """The shop of a book. `opening` is its first sentence, `note` what becomes of a question, `place` the place
    of sale whose law its ingredient lists follow."""

    opening: Public[LongText] = ""
    """The first sentence of the shop.
    Example: shop: {opening: Soap from one kitchen.}
    """
    contact: Public[Contact | None] = None
    """An e-mail address, or the address of a page, where a bar is asked for.
    Example: shop: {contact: soap@example.org}
    """
    note: Public[LongText] = ""
    """What becomes of a question.
    Example: shop: {note: Sent by post.}
    """
    keeping: Public[LongText] = ""
    """How soap is kept.
    Example: shop: {keeping: On a dish that drains.}
    """
    place: Public[PlaceOfSale | None] = None
    """The place of sale whose law the ingredient lists follow: `us`, `eu` or `gb`.
    Example: shop: {place: eu}
    """
