"""The type of the pages: subsets of the faces that the paper is set in, served from the site itself."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.templating import font, font_names

FOLDER = "assets/type/"
"""Where the style sheet finds them, beside itself."""


def _render(context: PageContext) -> Iterator[SiteFile]:
    for name in font_names(context.templates):
        read = partial(font, context.templates, name)
        yield SiteFile(FOLDER + name, read, (rests_on.TEMPLATES,))


KIND = PageKind("type", _render)
