"""The script by which a list of recipes is chosen from; without it the list stands whole."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.templating import named_by_content, script

NAME = "choose.js"


def address(context: PageContext) -> str:
    """Where the script lies, from the top of the site."""
    return named_by_content(NAME, script(context.templates, NAME))


def _render(context: PageContext) -> Iterator[SiteFile]:
    data = script(context.templates, NAME)
    yield SiteFile(address(context), lambda: data, (rests_on.TEMPLATES,))


KIND = PageKind("choosing", _render)
