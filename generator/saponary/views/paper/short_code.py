"""Small pictures inside a sheet: the code that a camera reads, and charts that bring their words."""

from __future__ import annotations

from html import escape

import segno
from markupsafe import Markup

from saponary.views import links
from saponary.views.site import SiteInput

_QUIET = 4
"""Modules of white round a code (ISO/IEC 18004)."""


def page_address(site: SiteInput, slug: str) -> str:
    """Where a recipe's page stands on the web; empty where the book does not say."""
    base = site.book.settings.base_url
    if base is None:
        return ""
    folder = "" if site.edition.is_open else f"{site.edition.name}/"
    return f"{base.rstrip('/')}/{folder}{links.recipe_page(slug)}"


def code(address: str) -> Markup:
    """An address as a QR code, one unit a module; empty for none."""
    if not address:
        return Markup("")
    rows = [bytes(row) for row in segno.make(address, error="m", micro=False).matrix]
    size = len(rows) + 2 * _QUIET
    marks = "".join(
        f"M{x + _QUIET} {y + _QUIET}h1v1h-1z"
        for y, row in enumerate(rows)
        for x, dark in enumerate(row)
        if dark
    )
    return Markup(
        f'<svg class="code" viewBox="0 0 {size} {size}" width="{size}" height="{size}" role="img">'
        f"<title>Code that leads to {escape(address)}</title>"
        f'<path fill="#000" d="{marks}"/></svg>'
    )


def told(svg: str, words: str, font: str = "") -> Markup:
    """A picture in SVG with its words inside it, where a PDF looks for them, and with its typeface."""
    head, close, rest = svg.partition(">")
    face = f' font-family="{escape(font)}"' if font else ""
    return Markup(f"{head}{face}{close}<title>{escape(words)}</title>{rest}")
