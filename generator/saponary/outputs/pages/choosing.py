"""The script by which a list of recipes is chosen from; without it the list stands whole."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.templating import script

NAME = "choose.js"


def _render(context: PageContext) -> Iterator[SiteFile]:
    data = script(context.templates, NAME)
    yield SiteFile(context.script(NAME), lambda: data, (rests_on.TEMPLATES,))


KIND = PageKind("choosing", _render)
