"""notes: Markdown in a recipe's notes that a page cannot show as it was meant."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saponary.book.quotes import uncommented
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding, suggest

_CODE = re.compile(r"^(`{3,}|~{3,})[^\n]*\n.*?(?:^\1|\Z)|`[^`\n]+`", re.MULTILINE | re.DOTALL)
_IMAGE = re.compile(r"!\[[^\]\n]*\]\(([^)\s]*)")
_LINK = re.compile(r"(?<!!)\[[^\]\n]+\]\((?:\.\./recipes/|\./)?([a-z0-9-]+)\.md(?:#[^)\s]*)?\)")
_TAG = re.compile(r"</?[a-z][a-z0-9]*(?:\s[^<>\n]*)?/?>", re.IGNORECASE)
_FOOTNOTE = re.compile(r"\[\^[^\]\s]+\]")


def check(context: ProofContext) -> Iterator[Finding]:
    slugs = [recipe.slug for recipe in context.book.recipes]
    for computed in context.recipes.values():
        shown = uncommented(computed.file.body)
        text = _CODE.sub(lambda code: " " * len(code[0]), shown.text)
        for offset, message, hint in sorted(_found(text, slugs)):
            place = computed.file.place_at(computed.file.body_start + shown.origin(offset))
            about = text[offset : offset + 60].split("\n")[0].split(")")[0].split(">")[0]
            yield Finding(RULE.name, "warning", place, message, hint, about)


def _found(text: str, slugs: list[str]) -> Iterator[tuple[int, str, str]]:
    for image in _IMAGE.finditer(text):
        hint = "add it to the recipe's photos: photo: {file: bar.jpg, day: 0, alt: what is to be seen}"
        yield image.start(), f"the picture {image[1]!r} is not shown: notes hold no pictures", hint
    for link in _LINK.finditer(text):
        if link[1] not in slugs:
            yield (
                link.start(),
                f"there is no recipe {link[1]!r} to lead to",
                suggest(link[1], slugs, "recipes"),
            )
    for tag in _TAG.finditer(text):
        hint = "write Markdown, such as **bold** or *slanted*"
        yield tag.start(), f"{tag[0]} is shown as it stands: notes hold no HTML", hint
    for note in _FOOTNOTE.finditer(text):
        yield (
            note.start(),
            f"{note[0]} is not a footnote here",
            "write the sentence into the text, in brackets",
        )


RULE = Rule(
    "notes",
    "words",
    "Notes are Markdown: headings, lists, tables, emphasis, code and links. A picture, HTML, a footnote, or a link "
    "to a recipe that is not there would not show as it was meant.",
    book=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="place in the notes",
)
