"""The code on a sheet that a camera reads: where the page of the recipe, or of the lot, stands on the web."""

from __future__ import annotations

from typing import NamedTuple, get_args

import segno

from saponary.messages.message import Message, Value, message
from saponary.views.on_the_web import OnTheWeb, Why
from saponary.views.site import SiteInput

_QUIET = 4
"""Modules of white round a code (ISO/IEC 18004)."""


def page_address(site: SiteInput, slug: str) -> str:
    """Where a recipe's page stands on the web; empty where the book does not say, or it has none there."""
    return _address(site, site.on_the_web.get(slug, OnTheWeb()).recipe)


def lot_address(site: SiteInput, slug: str, lot: str) -> str:
    """Where a lot's page stands on the web; empty where the book does not say, or it has none there."""
    return _address(site, site.on_the_web.get(slug, OnTheWeb()).lots.get(lot, ""))


def without_address(site: SiteInput, slug: str, lot: str) -> Message | None:
    """Why a lot has no address; None where it has one."""
    if lot_address(site, slug, lot):
        return None
    if site.book.settings.base_url is None:
        return message("label.no-code.no-base-url", lot=lot)
    return message(f"label.no-code.{site.on_the_web.get(slug, OnTheWeb()).why}", lot=lot)


KEYS_BY_ID = {"label.no-code.": get_args(Why)}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _address(site: SiteInput, path: str) -> str:
    base = site.book.settings.base_url
    return f"{base.rstrip('/')}/{path}" if base is not None and path else ""


class Picture(NamedTuple):
    """An SVG that stands in a sheet itself: a PDF looks for its words inside it."""

    svg: str
    words: Value
    across: int
    """How many modules wide it is, with the white round it."""


def code(address: str) -> Picture | None:
    """An address as a QR code, one unit a module; None for none."""
    if not address:
        return None
    rows = [bytes(row) for row in segno.make(address, error="m", micro=False).matrix]
    size = len(rows) + 2 * _QUIET
    marks = "".join(
        f"M{x + _QUIET} {y + _QUIET}h1v1h-1z"
        for y, row in enumerate(rows)
        for x, dark in enumerate(row)
        if dark
    )
    svg = (
        f'<svg class="code" viewBox="0 0 {size} {size}" width="{size}" height="{size}" role="img">'
        f'<path fill="#000" d="{marks}"/></svg>'
    )
    return Picture(svg, message("sheet.code", address=address), size)
