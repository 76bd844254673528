"""A plain swatch of one colour, with an edge so that a colour like the page's still shows."""

from __future__ import annotations

from html import escape


def swatch(colour: str) -> str:
    """It says nothing by itself: the colour's words and number stand beside it."""
    return (
        '<svg class="swatch" viewBox="0 0 48 32" width="48" height="32" preserveAspectRatio="none" aria-hidden="true" focusable="false">'
        f'<rect x="1" y="1" width="46" height="30" fill="{escape(colour)}" stroke="currentColor" stroke-opacity="0.6" vector-effect="non-scaling-stroke"/></svg>'
    )
