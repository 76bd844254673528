"""How a book's pages look beside the standard: a logo, an accent, a footer."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from saponary.schema.fields import Colour, Part
from saponary.schema.seen import Public

PAPER = {"light": "#f6f4ec", "dark": "#171914"}
"""The standard ground of a page, by daylight and in the dark, on which an accent is read."""


class Accent(Part):
    """The colour of links and of what is chosen."""

    light: Public[Colour | None] = None
    """On light ground. It is held to 4.5:1 against the paper.
    Example: look: {accent: {light: "#7a2f3a"}}
    """
    dark: Public[Colour | None] = None
    """On dark ground.
    Example: look: {accent: {dark: "#e0a0a8"}}
    """


class Look(Part):
    """What of the pages' look is your own without a template."""

    logo: Public[Annotated[str, Field(max_length=200)]] = ""
    """An SVG drawing in `photos/`, beside the book's name on every page.
    Example: look: {logo: mark.svg}
    """
    accent: Public[Accent] = Accent()
    """The colour of links and of what is chosen, on light and on dark ground.
    Example: look: {accent: {light: "#7a2f3a", dark: "#e0a0a8"}}
    """
    footer: Public[Annotated[str, Field(max_length=2000)]] = ""
    """A sentence at the foot of every page, in Markdown. It may lead to a page of your own.
    Example: look: {footer: Soap from the back kitchen.}
    """
