"""The site map (the open sitemaps.org format), for a book that knows its address."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.views import links


def _render(context: PageContext) -> Iterator[SiteFile]:
    edition, top = context.site.edition, context.top
    if not top or not (edition.is_public or edition.reader == "customer"):
        return

    def write() -> bytes:
        pages = [entry.path for entry in context.nav]
        pages += [links.recipe_page(recipe.slug) for recipe in context.site.in_order]
        addresses = (top + page.removesuffix("index.html") for page in pages)
        rows = "".join(f" <url><loc>{escape(address)}</loc></url>\n" for address in addresses)
        return (
            '<?xml version="1.0" encoding="UTF-8"?>\n'
            f'<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{rows}</urlset>\n'
        ).encode()

    yield SiteFile(
        "sitemap.xml", write, (rests_on.SETTINGS, rests_on.EDITION, rests_on.NAVIGATION, rests_on.TITLES)
    )


KIND = PageKind("sitemap", _render)
