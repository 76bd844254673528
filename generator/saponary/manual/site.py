"""Writes the manual as a site, in the look of a book, with the sample book built beside it."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path

from jinja2 import Environment

from saponary.assets import resources
from saponary.book.engine import ENGINE
from saponary.build.listed import lay
from saponary.build.proof import Proof
from saponary.label.lists import bar
from saponary.manual import pages
from saponary.manual.keys import PLACES, json_schema
from saponary.manual.sample import by_name, sample
from saponary.manual.topics import topics
from saponary.messages.message import message
from saponary.messages.speaker import speaker
from saponary.outputs.compose import compose
from saponary.outputs.frame import NavEntry
from saponary.outputs.page_kind import PageContext, Ways
from saponary.outputs.pages.type import FOLDER as TYPE_FOLDER
from saponary.outputs.templating import environment, font, font_names, named_by_content, style_sheet
from saponary.reading.findings import Finding
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views import links
from saponary.views.drawings import Drawings
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import PublishedBook, SiteInput

LANGUAGE = "en"
TITLE = "The Saponary manual"
_SHOWN = ("lye", "water", "superfat", "batter")
"""Figures beside a drawing."""

_LIST = ".saponary-manual"
"""In a manual's folder: the list of what was written there."""


class NotClean(Exception):
    """An example of the manual is found fault with."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        super().__init__(f"{len(findings)} findings")
        self.findings = findings


def write_manual(folder: Path) -> int:
    """Write it, and return how many files. Raises NotClean, or InTheWay where other things are in the way."""
    made = dict(manual_files())
    lay(folder, folder / _LIST, made, alone=True)
    return len(made)


def manual_files() -> Iterator[tuple[str, bytes]]:
    """Every file of the manual's site, by its path in it."""
    proof, faults = sample()
    if faults:
        raise NotClean(faults)
    made = _Made(proof)
    yield from made.files()
    for name in PLACES:
        schema = json.dumps(json_schema(name), indent=1, ensure_ascii=False)
        yield f"schema/{name}.json", schema.encode()
    for output in compose(made.site, made.templates, made.drawings):
        yield pages.SAMPLE + output.path, output.data


@dataclass
class _Made:
    """The sample book as a site, and what all pages of the manual share."""

    proof: Proof

    def __post_init__(self) -> None:
        whole = Unpublished(
            self.proof.book,
            self.proof.recipes,
            ENGINE,
            self.proof.book.pantry.version,
            labels={one.slug: bar(one.computed) for one in self.proof.recipes},
            on=date(2026, 1, 1),
        )
        self.site: SiteInput = for_edition(whole, STANDARD[PUBLIC])
        self.drawings = Drawings(self.site)
        self.templates = [resources.templates()]
        self.recipes = by_name(self.proof)

    def files(self) -> Iterator[tuple[str, bytes]]:
        """The manual's own pages, their style sheet and its type."""
        standard = style_sheet(self.templates)
        style = standard + (self.templates[0] / "manual" / "manual.css").read_bytes()
        context = self._context(environment(self.templates, speaker(LANGUAGE)), style)
        yield context.style, style
        for name in font_names(self.templates):
            yield TYPE_FOLDER + name, font(self.templates, name)
        kinds = pages.files()
        yield _page(
            context, "index", pages.INDEX, topics=pages.contents(), files=kinds, findings=pages.FINDINGS
        )
        for topic in topics():
            path = pages.topic_page(topic.slug)
            built = partial(self._built, links.root(path) + pages.SAMPLE)
            blocks = list(pages.blocks(topic, built, standard.decode()))
            yield _page(context, "topic", path, title=topic.title, blocks=blocks)
        for file in PLACES:
            yield _page(context, "keys", pages.keys_page(file), place=PLACES[file], cards=pages.cards(file))
        yield _page(context, "findings", pages.FINDINGS, troubles=list(pages.told()))

    def _context(self, spoken: Environment, style: bytes) -> PageContext:
        settings = self.site.book.settings.model_copy(update={"title": TITLE})
        site = SiteInput(
            book=PublishedBook(settings, self.site.book.pantry, self.site.book.own_pantry),
            recipes=(),
            engine=ENGINE,
            tables=self.site.tables,
        )
        nav = (
            NavEntry(message("manual.contents"), pages.INDEX),
            NavEntry(message("manual.findings"), pages.FINDINGS),
            NavEntry(message("manual.sample"), f"{pages.SAMPLE}index.html"),
        )
        return PageContext(
            site,
            spoken,
            tuple(self.templates),
            named_by_content("style.css", style),
            style,
            Drawings(site),
            Ways(nav),
        )

    def _built(self, up: str, name: str) -> pages.Built:
        one = self.recipes[name].computed
        shown = next(each for each in self.site.recipes if each.slug == name)
        figures = tuple((figure, one.catalogue[figure].text()) for figure in _SHOWN)
        return pages.Built(
            title=one.model.title,
            drawing=up + links.drawing(name, "fresh"),
            words=self.drawings.of(shown).description,
            figures=figures,
            page=up + links.recipe_page(name),
        )


def _page(context: PageContext, template: str, path: str, **view: object) -> tuple[str, bytes]:
    return path, context.page(f"manual/{template}.html", path, **view)
