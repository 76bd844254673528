"""What robots may read (RFC 9309): all of the public site, and where its map is."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile


def _render(context: PageContext) -> Iterator[SiteFile]:
    if not context.site.edition.is_public:
        return
    top = context.top
    lines = ["User-agent: *", "Allow: /", *([f"Sitemap: {top}sitemap.xml"] if top else [])]
    text = "".join(f"{line}\n" for line in lines)
    yield SiteFile("robots.txt", text.encode, (rests_on.SETTINGS, rests_on.EDITION))


KIND = PageKind("robots", _render)
