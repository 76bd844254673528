"""The glossary: the trade's terms as this book uses them."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import RECIPES, PageContext, PageKind, SiteFile
from saponary.views import links
from saponary.views.glossary import words


def _render(context: PageContext) -> Iterator[SiteFile]:
    def write() -> bytes:
        return context.page("glossary.html", links.GLOSSARY, words=words(context.site.book.pantry))

    yield SiteFile(links.GLOSSARY, write, (*rests_on.FRAME, rests_on.PANTRY))


KIND = PageKind("glossary", _render, readers=RECIPES, nav=NavEntry(message("nav.glossary"), links.GLOSSARY))
