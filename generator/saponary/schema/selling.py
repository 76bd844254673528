"""What a label says of who answers for a soap, for each place where it is sold. Labels are the maker's alone."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import Part, ShortText
from saponary.schema.seen import Public, Seen

PlaceOfSale = Literal["us", "eu", "gb"]
"""Places by the ids of the table of jurisdictions."""

Text = Annotated[ShortText, Field(min_length=1)]


class Responsible(Part):
    """The person in law for the product: in the Union and in Great Britain with an address there."""

    name: Public[Text]
    """The name of the person or firm."""
    address: Public[Text]
    """Its address. In the Union and in Great Britain it lies there."""


class ForSale(Part):
    """What one place asks for. `origin` is the country, of what is imported; `contact` takes reports of
    reactions, by address, telephone or net."""

    responsible: Annotated[Responsible | None, Seen("private")] = None
    """Who answers for the soap in law."""
    origin: Annotated[ShortText, Seen("private")] = ""
    """The country it comes from, where it is imported."""
    contact: Annotated[ShortText, Seen("private")] = ""
    """Where reports of reactions go: an address, a telephone number or a site.
    Example:
      sold-in:
        us:
          responsible: {name: Ines Harrowgate, address: "1 Example Street, Nowhere"}
          contact: reports@soap.example
    """
