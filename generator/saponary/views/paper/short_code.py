"""The code on a sheet that a camera reads: where the recipe's page stands on the web."""

from __future__ import annotations

import segno

from saponary.book.published import Published
from saponary.messages.message import Value, message
from saponary.quantity.dataclass import dataclass
from saponary.views import links
from saponary.views.readiness import lots_of
from saponary.views.site import SiteInput

_QUIET = 4
"""Modules of white round a code (ISO/IEC 18004)."""


def page_address(site: SiteInput, slug: str) -> str:
    """Where a recipe's page stands on the web; empty where the book does not say."""
    return _on_the_web(site, links.recipe_page(slug))


def lot_address(site: SiteInput, recipe: Published, lot: str) -> str:
    """Where a lot's page stands on the web; empty where the book does not say, or shows no such page there."""
    if not (site.shows("batches") and site.edition.published):
        return ""
    found = next((one for one in lots_of(recipe) if one.batch.lot == lot), None)
    return _on_the_web(site, found.path) if found is not None else ""


def _on_the_web(site: SiteInput, path: str) -> str:
    base = site.book.settings.base_url
    if base is None:
        return ""
    folder = "" if site.edition.is_public else f"{site.edition.name}/"
    return f"{base.rstrip('/')}/{folder}{path}"


@dataclass(frozen=True)
class Picture:
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
