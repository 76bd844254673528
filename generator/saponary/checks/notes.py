"""notes: Markdown in a recipe's notes, a page or the book's own words that readers would not see as it was meant."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from posixpath import dirname

from saponary.book.computed import Computed
from saponary.book.quotes import uncommented
from saponary.checks.listed import IN_TEXTS, WARNING
from saponary.checks.rule import Mention, ProofContext, Rule
from saponary.checks.texts import dead, wrong_forms, wrong_in
from saponary.reading.findings import Finding
from saponary.reading.markdown import PAGES, RECIPES, addresses, in_book, named


def check(computed: Computed) -> Iterator[Finding]:
    file = computed.file
    shown = uncommented(file.body)
    for one in sorted(wrong_forms(shown.text)):
        place = file.place_at(file.body_start + shown.origin(one.at))
        yield Finding(RULE.name, "warning", place, one.message, one.hint, one.about)


def led_to(computed: Computed) -> Iterator[Mention]:
    """The addresses in the notes that lead to a file of the book, or show what is no photo of it: the kind of each
    and the path that it leads to."""
    shown, folder = uncommented(computed.file.body), dirname(computed.path)
    for one in sorted(addresses(shown.text), key=lambda one: one.start):
        path = in_book(one.to, folder)
        if one.kind == "picture" or path is not None:
            place = computed.file.place_at(computed.file.body_start + shown.origin(one.start))
            yield Mention(f"{one.kind} {path or ''}", place, one.to)


def check_book(context: ProofContext) -> Iterator[Finding]:
    for slug, found in context.mentions[RULE.name].items():
        for one in found:
            kind, _, to = one.text.partition(" ")
            fault = dead(one.about, kind == "picture", to or None, context.book)
            if fault is None and kind == "link":
                fault = _hidden(to, slug, context)
            if fault is not None:
                yield Finding(RULE.name, "warning", one.place, *fault, one.about)
    yield from _of_pages(context)
    settings = context.book.settings
    for path, text in ((("about",), settings.about), (("look", "footer"), settings.look.footer)):
        place = context.book.settings_at(path)
        for wrong in wrong_in(text, "", context.book):
            yield Finding(RULE.name, "warning", place, wrong.message, wrong.hint, wrong.about)


def _of_pages(context: ProofContext) -> Iterator[Finding]:
    for page in context.book.pages:
        if page.plan is not None:
            shown = uncommented(page.body)
            for one in sorted(wrong_in(shown.text, dirname(page.file), context.book)):
                place = page.place_at(page.body_start + shown.origin(one.at))
                yield Finding(RULE.name, "warning", place, one.message, one.hint, one.about)


def _hidden(path: str, slug: str, context: ProofContext) -> tuple[str, str] | None:
    """What is wrong with a link to a recipe or a page that readers of the notes of another recipe cannot open."""
    here, other = context.facts[slug], named(path, RECIPES) or ""
    there = context.facts.get(other)
    if there is None:
        page = next((page for page in context.book.pages if page.slug == named(path, PAGES)), None)
        if page is None or page.plan is None:
            return None
        return _kept_to(page.slug, page.plan.editions or ["maker"], here.editions)
    if there.status == "draft" and here.status != "draft":
        said = f"{other!r} is a draft and has no page: its name stands without a link"
        return said, f"run: saponary sign {other}"
    return _kept_to(other, there.editions, here.editions)


def _kept_to(slug: str, editions: Collection[str], own: Collection[str]) -> tuple[str, str] | None:
    """What to say of what is kept to some editions, where a recipe of the editions `own` (all, where none) leads there."""
    if not editions or (own and set(own) <= set(editions)):
        return None
    said = (
        f"{slug!r} is in the editions {', '.join(editions)} alone: in others its name stands without a link"
    )
    return said, "waive this where it is meant so"


RULE = Rule(
    "notes",
    "words",
    "Notes and pages are Markdown: headings, lists, tables, emphasis, code, links, footnotes and photos. HTML, a "
    "missing footnote, a picture from another site, or a link to a recipe or a page that readers cannot open "
    "would not show as you meant it.",
    recipe=check,
    mentions=led_to,
    book=check_book,
    kinds=WARNING,
    waivable=IN_TEXTS,
    each="place in the text",
)
