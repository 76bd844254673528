"""The recipe sheet: a recipe's page, set for paper by its print style."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from saponary.press.engine import html_to_pdf


def sheets(files: Mapping[str, bytes], slugs: Sequence[str]) -> Iterator[tuple[str, bytes]]:
    """A PDF beside each recipe's page: path in the site, bytes."""
    for slug in slugs:
        yield f"recipes/{slug}/{slug}.pdf", html_to_pdf(files, f"recipes/{slug}/index.html")
