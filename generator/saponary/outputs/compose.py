"""From a checked book to the files of its site."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from saponary.messages.speaker import speaker
from saponary.outputs.page_kind import PageContext, SiteFile, published
from saponary.outputs.pages import KINDS
from saponary.outputs.templating import environment, named_by_content, style_sheet
from saponary.views.drawings import Drawings
from saponary.views.site import Output, SiteInput


def compose(site: SiteInput, templates: Sequence[Path], drawings: Drawings | None = None) -> Iterator[Output]:
    """Every file of the site, one at a time. `templates` are searched in their order."""
    for file in site_files(site, templates, drawings):
        yield Output(file.path, file.write())


def site_files(
    site: SiteInput, templates: Sequence[Path], drawings: Drawings | None = None
) -> Iterator[SiteFile]:
    """The files of the site before they are made, so that a caller may leave some unmade."""
    style = style_sheet(templates)
    context = PageContext(
        site=site,
        recipes=published(site.recipes, site.edition.shows),
        environment=environment(templates, speaker(site.book.settings.language)),
        templates=tuple(templates),
        style=named_by_content("style.css", style),
        style_sheet=style,
        drawings=drawings or Drawings(site),
    )
    kinds = [kind for kind in KINDS if kind.needs is None or site.shows(kind.needs)]
    paths = {file.path for kind in kinds for file in kind.render(context)}
    nav = tuple(kind.nav for kind in kinds if kind.nav is not None and kind.nav.path in paths)
    for kind in kinds:
        yield from kind.render(replace(context, nav=nav))
