"""Sign: put today's figures where a recipe or a class has them, and touch nothing else.

An edit is a stretch of the file's own text and what replaces it, so comments, order,
quoting, indentation and line endings survive byte for byte.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import replace

from saponary.book import classes, quotes
from saponary.book.catalogue import signature
from saponary.book.classes import ClassFile
from saponary.book.computed import Computed
from saponary.book.figure import FINGERPRINT, Compared, Figure, compare, compare_quoted
from saponary.book.recipe_text import parse_recipe
from saponary.build.proof import Proof
from saponary.lye.fingerprint import matches
from saponary.quantity.units import QuantityError
from saponary.reading.text_edits import Edit, apply, closing_line, newline_of
from saponary.reading.textfile import TextFile

_DIGITS = re.compile(r"(?:[-+−][ \t]*)?(?:\d+(?:\.\d+)?|\.\d+)")


def edits(computed: Computed) -> list[Edit]:
    """Every figure of a recipe that no longer holds, with what it should be."""
    text, found = computed.file.text, list[Edit]()
    for name, said in computed.model.signed.items():
        span = computed.file.tree.values[("signed", name)]
        if name == FINGERPRINT:
            if not matches(said, computed.fingerprint):
                at = text.find(said, span.start, span.end)
                if at >= 0:
                    found.append(Edit(at, at + len(said), computed.fingerprint))
        elif name in computed.catalogue:
            start = span.start
            if span.style in ("|", ">"):
                start += len(re.split(r"\r\n|\n|\r", text[start : span.end])[0])
            found += _edit(computed.catalogue[name], said, text, start, span.end)
    found += _quoted_in(text, computed.quotes, computed.catalogue)
    return sorted(set(found), key=lambda edit: edit.start)


def lesson_edits(lesson: ClassFile, figures: Mapping[str, Figure]) -> list[Edit]:
    """Every figure that a lesson quotes and that no longer holds, with what it should be."""
    return _quoted_in(lesson.text, quotes.in_notes(lesson.body, offset=lesson.body_start), figures)


def signed(proof: Proof, files: Collection[str], *, drafts: bool) -> Iterator[tuple[TextFile, str | None]]:
    """Recipes and classes whose text changes, with the new text; all of them where `files` is empty.

    What a recipe among `files` has not signed yet is signed; with `drafts`, of every recipe.

    The new text is read again first. It is None where it would not say what it should: where a
    figure is spelt with escapes, or broken over lines.
    """
    for one in proof.recipes:
        if not files or one.computed.file.file in files:
            made = edits(one.computed) + (signing(one.computed) if files or drafts else [])
            if made:
                new = apply(one.computed.file.text, made)
                yield one.computed.file, new if _says(one.computed, new) else None
    built = {one.computed.file.slug: one.computed.resolved for one in proof.recipes}
    for lesson in proof.book.classes:
        if not files or lesson.file in files:
            figures = classes.figures_of(lesson, built, proof.book.pantry, proof.book.settings.units)
            made = lesson_edits(lesson, figures)
            if made:
                new = apply(lesson.text, made)
                again = classes.parse_class(lesson.file, new)
                left = lesson_edits(again, figures)
                yield lesson, new if again.plan == lesson.plan and not left else None


def _says(computed: Computed, new: str) -> bool:
    """Whether a recipe's new text can be read, and every figure of it holds."""
    again = parse_recipe(computed.file.file, new)
    if again.model is None:
        return False
    after = replace(computed, file=again, model=again.model, quotes=tuple(quotes.in_recipe(again)))
    same = (
        len(after.quotes) == len(computed.quotes)
        and again.model.signed.keys() >= computed.model.signed.keys()
    )
    said = [(name, text) for name, text in again.model.signed.items() if name != FINGERPRINT]
    said += [(quote.name, quote.value) for quote in after.quotes if quote.value is not None]
    return same and not edits(after) and all(_holds(computed, name, text) for name, text in said)


def _holds(computed: Computed, name: str, text: str) -> bool:
    """Whether a figure holds; one that there is not, or that is no number, is not for us to correct."""
    if name not in computed.catalogue:
        return True
    try:
        return compare(computed.catalogue[name], text).holds
    except QuantityError:
        return text in computed.model.signed.values() or any(text == quote.value for quote in computed.quotes)


def _quoted_in(text: str, found: Iterable[quotes.Quote], figures: Mapping[str, Figure]) -> list[Edit]:
    changes = list[Edit]()
    for quote in found:
        if quote.value is not None and quote.name in figures:
            end = quote.value_start + len(quote.value)
            if text[quote.value_start : end] != quote.value:
                continue  # a comment stands in the middle of it
            changes += _edit(figures[quote.name], quote.value, text, quote.value_start, end, compare_quoted)
    return changes


def _edit(
    figure: Figure,
    said: str,
    text: str,
    start: int,
    end: int,
    held: Callable[[Figure, str], Compared] = compare,
) -> list[Edit]:
    try:
        compared = held(figure, said)
    except QuantityError:
        return []
    digits = _DIGITS.search(text, start, end)
    if compared.holds or digits is None:
        return []
    number = compared.recomputed.partition(" ")[0]
    return [Edit(digits.start(), digits.end(), number)]


def signing(computed: Computed) -> list[Edit]:
    """The edit that adds a `signed:` block to a draft, or the missing lines to one that has it."""
    text = computed.file.text
    newline = newline_of(text[: computed.file.body_start])
    lines = signature(computed.catalogue, computed.resolved)
    missing = {name: value for name, value in lines.items() if name not in computed.model.signed}
    if not missing:
        return []
    block = [f"{name}: {_quoted(value)}" for name, value in missing.items()]
    if computed.model.signed:
        return _added_lines(computed, block, newline)
    at = closing_line(computed.file)
    before = "" if text[:at].endswith(("\n", "\r")) else newline
    if ("signed",) in computed.file.tree.keys:
        return []
    return [Edit(at, at, before + newline.join(["signed:", *(f"  {line}" for line in block)]) + newline)]


def _added_lines(computed: Computed, block: list[str], newline: str) -> list[Edit]:
    """The lines set in behind the last signed figure, indented as it is."""
    text = computed.file.text
    last = max(computed.file.tree.keys[("signed", name)].start for name in computed.model.signed)
    line_start = max(text.rfind("\n", 0, last), text.rfind("\r", 0, last)) + 1
    indent = text[line_start:last]
    line_end = next((m.end() for m in re.finditer(r"\r\n|\n|\r", text[last:])), 0)
    line_end += last if line_end else 0
    if indent.strip() or line_end == 0:
        return []
    return [Edit(line_end, line_end, "".join(f"{indent}{line}{newline}" for line in block))]


def _quoted(value: str) -> str:
    """A fingerprint of digits alone stays text for every reader of YAML."""
    return f'"{value}"' if re.fullmatch(r"[0-9]+(?:e[0-9]+)?", value) else value
