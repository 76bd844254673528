"""A scent as it is written, with the papers that came with it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import (
    Name,
    Part,
    Share,
    ShortText,
    shorthand,
)
from saponary.schema.ingredient import IngredientEntry
from saponary.schema.seen import Private, Public


class CertificateEntry(Part):
    """The largest share of the finished product, from the supplier's certificate for this very scent."""

    maximum: Public[Share]
    """The most of the finished product that may be this scent."""
    category: Public[ShortText | None] = None
    """The kind of product the limit is for, as the certificate names it."""
    from_: Private[ShortText | None] = None
    """The paper it stands on."""


class FragranceEntry(IngredientEntry):
    """A scent. `composition` is the supplier's allergen sheet (may be empty); `blend` makes it of others."""

    kind: Public[Literal["essential-oil", "fragrance-oil"] | None] = None
    """`essential-oil` or `fragrance-oil`.
    Example: fragrances: {hedge-scent: {kind: fragrance-oil, composition: {linalool: 2 %}}}
    """
    composition: Public[Annotated[dict[ShortText, Share], Field(max_length=200)] | None] = None
    """The supplier's allergen sheet: materials as shares of the scent. Empty, `{}`, where the sheet names
    none.
    Example:
      fragrances:
        hedge-scent:
          kind: fragrance-oil
          composition: {linalool: 2 %, limonene: 1 %}
    """
    certificate: Public[Annotated[CertificateEntry, shorthand("maximum")] | None] = None
    """The most of it that the finished product may hold, from its certificate.
    Example:
      fragrances:
        hedge-scent:
          kind: fragrance-oil
          composition: {}
          certificate: {maximum: 5 %, category: bar soap, from: sheet of bottle 88-C}
    """
    blend: Private[Annotated[dict[Name, Share], Field(min_length=1, max_length=40)] | None] = None
    """The scents it is mixed of, as shares that make 100 %. The recipe of a blend is never published.
    Example:
      fragrances:
        hedge-scent:
          blend: {essential-oil-lavender: 70 %, essential-oil-rosemary: 30 %}
    """
