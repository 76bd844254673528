"""uncheckable-figure: a number that is published in braces and that nothing holds to the recipe."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book import quotes
from saponary.book.catalogue import compare
from saponary.book.computed import Computed
from saponary.book.records import BatchRecord, texts
from saponary.checks.rule import ProofContext, Rule
from saponary.quantity.units import QuantityError
from saponary.reading.findings import Finding, Place
from saponary.reading.published_text import value_at
from saponary.reading.tree import Path

_PLAINLY = "name a figure, such as {lye = 138.7 g}; a brace that is no figure is written \\\\{"
_STRAY = "a value stands in braces here that is no figure"
_NO_FIGURES = "write it in the notes, where it is checked"


def check(computed: Computed) -> Iterator[Finding]:
    file = computed.file
    for path, span in file.tree.values.items():
        if not path or "private" in path or not isinstance(value := value_at(file.tree.data, path), str):
            continue
        place = Place(file.file, span.line, span.column)
        if path[-1] in quotes.TEXT_KEYS:
            written = file.text[span.start : span.end]
            if _figures(written) != _figures(value):
                yield _finding(
                    place, "a figure is hidden behind escapes here", "write its braces and its name plainly"
                )
            elif quotes.loose(value):
                yield _finding(place, _STRAY, _PLAINLY)
        elif path[-1] in quotes.PLAIN_KEYS and holds_figures(value):
            yield _finding(place, f"no figure can stand in {path[-1]!r}", _NO_FIGURES)
    for offset in quotes.loose_in_notes(file.body, offset=file.body_start):
        yield _finding(file.place_at(offset), _STRAY, _PLAINLY)
    for record in computed.batches:
        if record.file != file.file:
            yield from _recorded(computed, record)


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


def _held(computed: Computed, record: BatchRecord, path: Path, quote: quotes.Quote) -> Iterator[Finding]:
    figure = computed.catalogue.get(quote.name)
    told = f"{quote.name} is quoted as {quote.value}" if quote.value else f"{quote.name!r} is placed"
    if figure is None:
        now = "there is no such figure"
    elif quote.value is None:
        return
    else:
        try:
            compared = compare(figure, quote.value)
        except QuantityError as error:
            now = str(error)
        else:
            if compared.holds:
                return
            now = f"it is now {compared.recomputed}"
    yield _finding(record.place(path), f"{told}; {now}", f"mend the record of lot {record.batch.lot}")


def check_book(context: ProofContext) -> Iterator[Finding]:
    """What the book says of itself has no figures, but for the lessons, whose stray braces are found."""
    for read in context.book.classes:
        if read.plan is not None:
            for offset in quotes.loose_in_notes(read.body, offset=read.body_start):
                yield _finding(read.place_at(offset), _STRAY, _PLAINLY)
    for said in context.book.texts:
        if said.within is None and holds_figures(said.text):
            yield _finding(said.place, "no figure can stand here", _NO_FIGURES)


def _finding(place: Place, message: str, hint: str) -> Finding:
    return Finding(RULE.name, "error", place, message, hint)


RULE = Rule(
    "uncheckable-figure",
    "stale",
    "What stands in braces with an equals sign is read as a figure that was checked. One that is spelt so that it "
    "cannot be checked, or stands where none is, must not be published.",
    recipe=check,
    book=check_book,
)
