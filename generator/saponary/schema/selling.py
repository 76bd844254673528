"""What a label says of who answers for a soap, for each place where it is sold."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import Part, ShortText
from saponary.schema.seen import Public

PlaceOfSale = Literal["us", "eu", "gb"]
"""Places by the ids of the table of jurisdictions."""

Text = Annotated[ShortText, Field(min_length=1)]


class Responsible(Part):
    """The person in law for the product: in the Union and in Great Britain with an address there."""

    name: Public[Text]
    address: Public[Text]


class ForSale(Part):
    """What one place asks for. `origin` is the country, of what is imported; `contact` takes reports of
    reactions, by address, telephone or net."""

    responsible: Public[Responsible | None] = None
    origin: Public[ShortText] = ""
    contact: Public[ShortText] = ""
