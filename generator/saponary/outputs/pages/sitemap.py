"""The site map (the open sitemaps.org format), for a book that knows its address."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from saponary.outputs.frame import WAYS
from saponary.outputs.page_kind import Desk, PageKind, Sheet
from saponary.views import links
from saponary.views.gallery import in_order


def _render(desk: Desk) -> Iterator[Sheet]:
    base = desk.site.book.settings.base_url
    if base is None:
        return

    def write() -> bytes:
        pages = [to for _, to, needs in WAYS if not needs or desk.site.shows(needs)]
        pages += [links.recipe_page(recipe.slug) for recipe in in_order(desk.recipes)]
        rows = "".join(f" <url><loc>{escape(base.rstrip('/'))}/{page}</loc></url>\n" for page in pages)
        return (
            '<?xml version="1.0" encoding="UTF-8"?>\n'
            f'<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{rows}</urlset>\n'
        ).encode()

    yield Sheet("sitemap.xml", write)


KIND = PageKind("sitemap", _render)
