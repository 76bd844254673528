"""Class handouts: of every class a student's and a teacher's copy, on both papers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.messages.message import message
from saponary.outputs.filling import fill
from saponary.outputs.pdf_kind import PdfContext, PdfKind, PdfSheet
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.handout import handout
from saponary.views.paper.handout_spread import spread

COPIES = (("student", False), ("teacher", True))


def render(context: PdfContext) -> Iterator[PdfSheet]:
    """Only where the edition gives the formula in full, which a weigh sheet does; the teacher's copy,
    which holds the answers, only where people are named, as on the bench.
    """
    site = context.site
    if site.edition.formula != "full":
        return
    for read in site.book.classes:
        if read.plan is None:
            continue
        for copy, answers in COPIES:
            if answers and not site.shows("people"):
                continue
            view = handout(read, read.plan, site, answers=answers)
            if view is None:
                continue
            pages = () if answers else view.recipes
            spreads = tuple(spread(read.plan, each, context.drawings) for each in pages)
            for size in SIZES:
                title = message(f"handout.title.{copy}", title=view.title)
                sheet = paper(site, size, title, head=message(f"handout.head.{copy}", title=view.title))
                sheet = replace(sheet, emergency=view.emergency)
                name = "press/handout.html" if answers else "press/handout-student.html"
                html = fill(context.environment, name, paper=sheet, view=view, spreads=spreads)
                yield PdfSheet(f"classes/{read.slug}-{copy}-{size.name}.pdf", html)


KEYS_BY_ID = {"handout.title.": ("student", "teacher"), "handout.head.": ("student", "teacher")}
"""Keys that are put together here: what they start with, and the ids that may follow."""

KIND = PdfKind("class-handout", render, needs="work")
