"""What a host shows for an address that leads nowhere. It may be shown at any address, so its links begin at the root."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from urllib.parse import urlsplit

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile

PATH = "404.html"


def _render(context: PageContext) -> Iterator[SiteFile]:
    if not context.site.edition.is_public:
        return
    base = context.site.book.settings.base_url
    top = f"{urlsplit(base).path.rstrip('/')}/" if base else "/"

    def write() -> bytes:
        return replace(context, root=top).page("not-found.html", PATH)

    yield SiteFile(PATH, write, rests_on.FRAME)


KIND = PageKind("not-found", _render)
