"""Class handouts: of every class a student's and a teacher's copy, on both papers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from saponary.outputs.pdf_kind import PdfContext, PdfKind, PdfSheet
from saponary.views.paper.frame import SIZES, paper
from saponary.views.paper.handout import handout

COPIES = (("student", False), ("teacher", True))


def render(context: PdfContext) -> Iterator[PdfSheet]:
    """Only where the edition gives the formula in full, which a weigh sheet does; the teacher's copy,
    which holds the answers, only where people are named, as on the bench.
    """
    site = context.site
    if site.edition.formula != "full":
        return
    template = context.environment.get_template("press/handout.html")
    for read in site.book.classes:
        if read.plan is None:
            continue
        for copy, answers in COPIES:
            if answers and not site.shows("people"):
                continue
            view = handout(read, read.plan, site, answers=answers)
            if view is None:
                continue
            for size in SIZES:
                sheet = paper(
                    site, size, f"{view.title}: {view.copy_name}", head=f"{view.title}. {view.copy_name}"
                )
                sheet = replace(sheet, emergency=view.emergency)
                html = template.render(paper=sheet, view=view)
                yield PdfSheet(f"classes/{read.slug}-{copy}-{size.name}.pdf", html)


KIND = PdfKind("class-handout", render, needs="work")
