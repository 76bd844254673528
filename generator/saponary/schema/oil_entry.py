"""An oil as it is written, in `pantry.yaml` and in the tables."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from saponary.schema.fields import (
    Date,
    IodineValue,
    Part,
    SaponificationValue,
    Share,
    ShortText,
    Temperature,
    shorthand,
)
from saponary.schema.ingredient import IngredientEntry
from saponary.schema.seen import Private, Public, Seen

OilKind = Literal["oil", "butter", "fat", "wax", "acid"]


class CertifiedValue(Part):
    """A saponification value, with its published or certified range."""

    value: Public[SaponificationValue]
    """Milligrams of potassium hydroxide that one gram takes up."""
    range: Public[Annotated[list[SaponificationValue], Field(min_length=2, max_length=2)] | None] = None
    """The least and the most it may be, from the certificate or a standard. The superfat's band rests on it.
    """
    from_: Private[ShortText | None] = None
    """The paper it stands on."""


class IodineEntry(Part):
    value: Public[IodineValue]
    """Grams of iodine that 100 g take up."""
    range: Public[Annotated[list[IodineValue], Field(min_length=2, max_length=2)] | None] = None
    """The least and the most it may be."""


class UnsaponifiableEntry(Part):
    """What takes no alkali: the share used, and the most that is allowed."""

    value: Public[Share]
    """The share of the oil that takes up no lye.
    Example: oils: {olive: {unsaponifiable: {value: 1 %, limit: 1.5 %}}}
    """
    limit: Public[Share | None] = None
    """The most that a standard allows.
    Example: oils: {olive: {unsaponifiable: {value: 1 %, limit: 1.5 %}}}
    """


class OilLot(Part):
    """One lot of an oil as bought: the day until which its supplier vouches for it."""

    best_before: Public[Date]
    """The day until which the supplier vouches for it."""


class OilEntry(IngredientEntry):
    kind: Public[OilKind | None] = None
    """What it is: `oil`, `butter`, `fat`, `wax` or `acid`.
    Example: oils: {lard-of-the-butcher: {like: lard, kind: fat}}
    """
    inci_sodium_soap: Public[ShortText | None] = None
    """The listed name of its soap with sodium.
    Example: oils: {olive-of-mine: {like: olive, inci-sodium-soap: Sodium Olivate}}
    """
    inci_potassium_soap: Public[ShortText | None] = None
    """The listed name of its soap with potassium.
    Example: oils: {olive-of-mine: {like: olive, inci-potassium-soap: Potassium Olivate}}
    """
    saponification_value: Public[Annotated[CertifiedValue, shorthand("value")] | None] = None
    """Milligrams of potassium hydroxide that one gram takes up, from your certificate. It must agree with the
    fatty acids.
    Example:
      oils:
        olive:
          saponification-value:
            value: 189.4 mg/g
            range: [188.6 mg/g, 190.2 mg/g]
            from: certificate of lot 4471
    """
    iodine_value: Public[Annotated[IodineEntry, shorthand("value")] | None] = None
    """Grams of iodine that 100 g take up: how unsaturated it is.
    Example: oils: {olive: {iodine-value: {value: 82, range: [78, 88]}}}
    """
    fatty_acids: Public[dict[ShortText, Share] | None] = None
    """Its fatty acids as shares, each as carbon atoms and double bonds: `C18:1` is oleic acid.
    Example:
      oils:
        cupuacu-butter:
          inci: Theobroma Grandiflorum Seed Butter
          kind: butter
          saponification-value:
            value: 187
            range: [184, 191]
          fatty-acids: {"C16:0": 8 %, "C18:0": 32 %, "C18:1": 43 %, "C18:2": 4 %, "C20:0": 11 %, "C22:0": 2 %}
    """
    unsaponifiable: Public[Annotated[UnsaponifiableEntry, shorthand("value")] | None] = None
    """The share that takes up no lye. Example: oils: {olive: {unsaponifiable: 1 %}}"""
    melting: Public[Annotated[list[Temperature], Field(min_length=2, max_length=2)] | None] = None
    """The two temperatures between which it melts.
    Example: oils: {lard-of-the-butcher: {like: lard, melting: [30 °C, 40 °C]}}
    """
    certificate_needed: Public[bool | None] = None
    """`true` where one lot differs so much from the next that a certificate is wanted before it is weighed.
    Example: oils: {lard-of-the-butcher: {like: lard, certificate-needed: false}}
    """
    lots: Annotated[
        dict[ShortText, Annotated[OilLot, shorthand("best-before")]] | None,
        Field(max_length=200),
        Seen("people"),
    ] = None
    """Your lots of this oil, each with its best-before day. A bar keeps no longer than its oils.
    Example: oils: {olive: {lots: {L-4471: {best-before: 2027-06-30}}}}
    """
