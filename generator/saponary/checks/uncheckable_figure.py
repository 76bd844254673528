"""uncheckable-figure: a number that is published in braces and that nothing holds to the recipe."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book import quotes
from saponary.book.beside import stuck, stuck_in_notes
from saponary.book.computed import Computed
from saponary.book.figure import compare_quoted
from saponary.book.records import BatchRecord, texts
from saponary.checks.rule import ProofContext, Rule
from saponary.quantity.units import QuantityError
from saponary.reading.findings import Finding, Place
from saponary.reading.published_text import value_at
from saponary.reading.textfile import TextFile
from saponary.reading.tree import Path

_PLAINLY = "name a figure, such as {lye = 138.7 g}; a brace that is not a figure is written \\\\{"
_STRAY = "a value stands in braces here that is not a figure"
_STUCK = "a digit or a sign is stuck to a figure here, and is read as part of it"
_APART = "set words or a blank between them; a figure brings its whole number and its unit"
_NO_FIGURES = "write it in the notes, where it is checked"


def check(computed: Computed) -> Iterator[Finding]:
    file = computed.file
    for path, span in file.tree.values.items():
        if path and "private" not in path and isinstance(value := value_at(file.tree.data, path), str):
            place = Place(file.file, span.line, span.column)
            yield from _in_front(path, value, file.text[span.start : span.end], place)
    yield from _in_notes(file)
    for record in computed.batches:
        if record.file != file.file:
            yield from _recorded(computed, record)


def _in_front(path: Path, value: str, written: str, place: Place) -> Iterator[Finding]:
    """A text of the front matter, as YAML gives it and as it is written."""
    if path[-1] in quotes.PLAIN_KEYS and holds_figures(value):
        yield _finding(place, f"no figure can stand in {path[-1]!r}", _NO_FIGURES)
    if path[-1] not in quotes.TEXT_KEYS:
        return
    if _figures(written) != _figures(value):
        yield _finding(
            place, "a figure is hidden behind escapes here", "write its braces and its name plainly"
        )
    elif quotes.loose(value):
        yield _finding(place, _STRAY, _PLAINLY)
    elif list(stuck(value)):
        yield _finding(place, _STUCK, _APART)


def _in_notes(file: TextFile) -> Iterator[Finding]:
    for offset in quotes.loose_in_notes(file.body, offset=file.body_start):
        yield _finding(file.place_at(offset), _STRAY, _PLAINLY)
    for offset in stuck_in_notes(file.body, offset=file.body_start):
        yield _finding(file.place_at(offset), _STUCK, _APART)


def _figures(text: str) -> list[tuple[str, str]]:
    """Names and quoted values, however the lines are broken."""
    return [(q.name, " ".join((q.value or "").split())) for q in quotes.find(text, code=False)]


def holds_figures(text: str) -> bool:
    """Whether a text that is published as it stands holds what looks like a quoted figure."""
    quoted = any(quote.value is not None for quote in quotes.find(text, code=False))
    return quoted or quotes.loose(text)


def _recorded(computed: Computed, record: BatchRecord) -> Iterator[Finding]:
    """The texts of a batch in a file of its own: their figures are this recipe's."""
    for path, text in (*texts(record), (("lot",), record.batch.lot)):
        if path[-1] in quotes.PLAIN_KEYS:
            if holds_figures(text):
                yield _finding(record.place(path), f"no figure can stand in {path[-1]!r}", _NO_FIGURES)
            continue
        for quote in quotes.find(text, code=False):
            yield from _held(computed, record, path, quote)
        if quotes.loose(text):
            yield _finding(record.place(path), _STRAY, _PLAINLY)
        if list(stuck(text)):
            yield _finding(record.place(path), _STUCK, _APART)


def _held(computed: Computed, record: BatchRecord, path: Path, quote: quotes.Quote) -> Iterator[Finding]:
    figure = computed.catalogue.get(quote.name)
    told = f"{quote.name} is quoted as {quote.value}" if quote.value else f"{quote.name!r} is placed"
    if figure is None:
        now = "there is no such figure"
    elif quote.value is None:
        return
    else:
        try:
            compared = compare_quoted(figure, quote.value)
        except QuantityError as error:
            now = str(error)
        else:
            if compared.holds:
                return
            now = f"it is now {compared.recomputed}"
    yield _finding(record.place(path), f"{told}; {now}", f"correct the record of lot {record.batch.lot}")


def check_book(context: ProofContext) -> Iterator[Finding]:
    """What the book says of itself has no figures, but for the lessons, whose stray braces are found."""
    for read in context.book.classes:
        if read.plan is not None:
            yield from _in_notes(read)
    for said in context.book.texts:
        if said.within is None and holds_figures(said.text):
            yield _finding(said.place, "no figure can stand here", _NO_FIGURES)


def _finding(place: Place, message: str, hint: str) -> Finding:
    return Finding(RULE.name, "error", place, message, hint)


RULE = Rule(
    "uncheckable-figure",
    "stale",
    "Text in braces with an equals sign is read as a checked figure. One that cannot be checked, "
    "because of its spelling or because there is no such figure, must not be published.",
    recipe=check,
    book=check_book,
)
