"""The gallery: the first page of the book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from saponary.messages.message import message
from saponary.outputs import rests_on
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.pages import choosing, searching
from saponary.outputs.swatched import Swatched
from saponary.views import links
from saponary.views.gallery import GalleryRow, gallery_choices, gallery_row, gallery_view


def _render(path: str, context: PageContext) -> Iterator[SiteFile]:
    up = links.root(path)

    rows = context.rows.all(
        f"gallery {up}",
        GalleryRow,
        context.site.in_order,
        rests_on.ROW,
        lambda one: (gallery_row(one, context.site, up),),
    )
    swatched = Swatched(context, rows, gallery_choices)

    def write() -> bytes:
        found = rows.found()
        view = gallery_view(context.site, found, context.published, up)
        return context.page(
            "gallery.html",
            path,
            gallery=replace(view, choices=swatched.on(found)),
            script=up + context.script(choosing.NAME),
            words=[up + searching.address(part) for part in range(searching.parts(context))],
        )

    uses = (*rests_on.FRAME, rests_on.PDFS, rests_on.TITLES, rows.name, swatched.name())
    yield SiteFile(path, write, uses)


NAME = message("nav.gallery")
KIND = PageKind(
    "gallery", partial(_render, links.GALLERY), readers=("reader",), nav=NavEntry(NAME, links.GALLERY)
)
IN_CLASS = PageKind(
    "gallery-in-class",
    partial(_render, links.RECIPES),
    readers=("student",),
    nav=NavEntry(NAME, links.RECIPES),
)
"""For students, whose first page is their class."""
