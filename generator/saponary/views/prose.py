"""The maker's own words: Markdown with figures in it, as HTML that can do no harm.

Figures are those, and only those, that the checks see: they are found in the text as it
stands and put back once it is parsed, so that code and addresses keep what was written.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup

from saponary.book import quotes
from saponary.book.figure import Figure
from saponary.book.plain_title import plain_title, shown_figure
from saponary.views.prose_links import NOWHERE, Links
from saponary.views.prose_marks import CLOSE, OPEN, Placed, bare, parser, typographic
from saponary.views.site import PhotoSet


@dataclass(frozen=True)
class Prose:
    """Turns texts of one recipe (or of the book, without figures) into HTML."""

    figures: Mapping[str, Figure]
    links: Links = NOWHERE
    pictures: Mapping[str, PhotoSet] = field(default_factory=dict[str, PhotoSet])
    """The photos that its texts may show, by their path inside `photos/`; others are left out."""
    name: str = ""
    """Keeps the footnotes of this text apart from those of others on the same paper."""

    def block(self, text: str, *, top: int = 3, front: bool = False) -> Markup:
        """Paragraphs, lists, headings; the highest heading becomes one of level `top`."""
        marked, placed = self._marked(quotes.without_comments(text), code=not front)
        return Markup(parser().render(marked, self._env(placed, top)))

    def inline(self, text: str) -> Markup:
        """One run of text, from the front matter."""
        marked, placed = self._marked(text, code=False)
        return Markup(parser().renderInline(marked, self._env(placed, 3)))

    def plain(self, text: str) -> str:
        """The same without any markup, for a description or an alternative text."""
        marked, placed = self._marked(text, code=False)
        tokens = parser().parseInline(marked, self._env(placed, 3))
        return " ".join(bare(tokens).split())

    def title(self, text: str) -> str:
        """A title: no Markdown, figures as text."""
        return typographic(plain_title(text, self.figures))

    def _env(self, placed: Sequence[Placed], top: int) -> dict[str, Any]:
        return {"placed": placed, "top": top, "links": self.links, "photos": self.pictures, "name": self.name}

    def _marked(self, text: str, *, code: bool) -> tuple[str, list[Placed]]:
        text = text.replace(OPEN, "\ufffd").replace(CLOSE, "\ufffd")
        out: list[str] = []
        placed: list[Placed] = []
        done = 0
        for quote in quotes.find(text, code=code):
            shown = self._shown(quote, text)
            if shown is None:
                continue
            out.append(f"{text[done : quote.start]}{OPEN}{len(placed)}{CLOSE}")
            placed.append(shown)
            done = quote.end
        return "".join(out) + text[done:], placed

    def _shown(self, quote: quotes.Quote, text: str) -> Placed | None:
        shown = shown_figure(quote, self.figures)
        return None if shown is None else Placed(text[quote.start : quote.end], *shown)


def first_sentence(text: str) -> str:
    """What a card has room for."""
    head, stop, _ = text.partition(". ")
    return f"{head}{stop.strip()}"
