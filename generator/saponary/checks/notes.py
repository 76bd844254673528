"""notes: Markdown in a recipe's notes that a page cannot show as it was meant."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from posixpath import basename, dirname

from saponary.book.computed import Computed
from saponary.book.facts import Facts
from saponary.book.library import Book
from saponary.book.quotes import uncommented
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Mention, ProofContext, Rule
from saponary.reading.findings import Finding, suggest
from saponary.reading.markdown import PHOTOS, RECIPES, addresses, in_book, named

_CODE = re.compile(r"^(`{3,}|~{3,})[^\n]*\n.*?(?:^\1|\Z)|`[^`\n]+`", re.MULTILINE | re.DOTALL)
_TAG = re.compile(r"</?[a-z][a-z0-9]*(?:\s[^<>\n]*)?/?>", re.IGNORECASE)
_REFERENCE = re.compile(r"\[\^(?P<label>[^\]\s]+)\](?!:)")
_FOOTNOTE = re.compile(r"^ {0,3}\[\^(?P<label>[^\]\s]+)\]:", re.MULTILINE)


def check(computed: Computed) -> Iterator[Finding]:
    shown = uncommented(computed.file.body)
    text = _CODE.sub(lambda code: " " * len(code[0]), shown.text)
    for offset, message, hint, about in sorted([*_marks(text), *_footnotes(text)]):
        place = computed.file.place_at(computed.file.body_start + shown.origin(offset))
        yield Finding(RULE.name, "warning", place, message, hint, about)


def led_to(computed: Computed) -> Iterator[Mention]:
    """The addresses in the notes, each with its kind before it."""
    shown = uncommented(computed.file.body)
    for one in sorted(addresses(shown.text), key=lambda one: one.start):
        place = computed.file.place_at(computed.file.body_start + shown.origin(one.start))
        yield Mention(f"{one.kind} {one.to}", place, one.to)


def check_book(context: ProofContext) -> Iterator[Finding]:
    for slug, found in context.mentions[RULE.name].items():
        for one in found:
            folder, is_picture = dirname(one.place.file), one.text.startswith("picture ")
            fault = dead(one.about, is_picture, folder, context.book)
            if fault is None and not is_picture:
                fault = _hidden(named(in_book(one.about, folder), RECIPES) or "", slug, context.facts)
            if fault is not None:
                yield Finding(RULE.name, "warning", one.place, *fault, one.about)


def dead(to: str, is_picture: bool, folder: str, book: Book) -> tuple[str, str] | None:
    """What is wrong with an address that leads to nothing of the book, and what to write; None where it leads there.

    That a photo is there at all is held by the rule `photos`.
    """
    path = in_book(to, folder)
    if is_picture:
        if path is not None and path.startswith(PHOTOS):
            return None
        known = [f"../{PHOTOS}{name}" for name in book.photos]
        hint = suggest(f"../{PHOTOS}{basename(path or to)}", known, "photos")
        return f"the picture {to!r} is not one of the book's photos, which are in {PHOTOS}", hint
    if path is None:
        return None
    slugs = [recipe.slug for recipe in book.recipes]
    slug = named(path, RECIPES)
    if slug is None:
        return f"{to!r} is not a file of the book that has a page", suggest(_stem(path), slugs, "recipes")
    return (
        None
        if slug in slugs
        else (f"there is no recipe {slug!r} for this link", suggest(slug, slugs, "recipes"))
    )


def _stem(path: str) -> str:
    return basename(path).partition(".")[0]


def _hidden(other: str, slug: str, facts: Mapping[str, Facts]) -> tuple[str, str] | None:
    """The same of a recipe that readers of the notes of another cannot open."""
    there, here = facts.get(other), facts[slug]
    if there is None:
        return None
    if there.status == "draft" and here.status != "draft":
        return (
            f"{other!r} is a draft and has no page: its name stands without a link",
            f"run: saponary sign {other}",
        )
    if there.editions and not (here.editions and set(here.editions) <= set(there.editions)):
        only = ", ".join(there.editions)
        said = f"{other!r} is in the editions {only} alone: in others its name stands without a link"
        return said, "waive this where it is meant so"
    return None


def _marks(text: str) -> Iterator[tuple[int, str, str, str]]:
    opened: list[str] = []
    for tag in _TAG.finditer(text):
        name = tag[0].strip("</> ").partition(" ")[0]
        if tag[0].startswith("</") and name in opened:
            opened.remove(name)
            continue
        opened.append(name)
        hint = "write Markdown, such as **bold** or *slanted*"
        yield (
            tag.start(),
            f"{tag[0]} would show as these very signs: notes hold no HTML",
            hint,
            tag[0].rstrip(">"),
        )


def _footnotes(text: str) -> Iterator[tuple[int, str, str, str]]:
    told, asked = list(_FOOTNOTE.finditer(text)), list(_REFERENCE.finditer(text))
    labels, known = [one["label"] for one in told], {one["label"] for one in asked}
    for one in asked:
        if one["label"] not in labels:
            hint = suggest(one["label"], labels, "footnotes") if labels else _how(one["label"])
            yield one.start(), f"there is no footnote {one['label']!r}", hint, one[0]
    for one in told:
        if one["label"] not in known:
            said = f"nothing leads to the footnote {one['label']!r}, so that it is not shown"
            yield one.start(), said, f"put [^{one['label']}] where it belongs", one[0]


def _how(label: str) -> str:
    return f"write it on a line of its own below: [^{label}]: what it says"


RULE = Rule(
    "notes",
    "words",
    "Notes are Markdown: headings, lists, tables, emphasis, code, links, footnotes and photos. HTML, a "
    "missing footnote, a picture from another site, or a link to a recipe that readers cannot open "
    "would not show as you meant it.",
    recipe=check,
    mentions=led_to,
    book=check_book,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="place in the notes",
)
