"""stale: a signed or quoted figure that the recomputed value does not round to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from saponary.book.classes import figures_of
from saponary.book.computed import Computed
from saponary.book.figure import FINGERPRINT, Compared, Figure, compare, compare_quoted
from saponary.book.late import Seen
from saponary.book.quotes import Quote, in_notes
from saponary.checks.rule import ProofContext, Rule
from saponary.lye.fingerprint import matches
from saponary.quantity.units import QuantityError
from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.textfile import TextFile


def check(computed: Computed) -> Iterator[Finding]:
    yield from _together([*_signed(computed)])
    for quote in computed.quotes:
        yield from _quoted(computed.file, computed.catalogue, quote, _settle(computed))


def _together(found: list[Finding]) -> Iterator[Finding]:
    """Signed figures that one change made untrue are one finding, at the first of them."""
    stale = [one for one in found if " is signed as " in one.message]
    yield from (one for one in found if one not in stale)
    if stale:
        said = "; ".join(one.message for one in stale)
        yield replace(stale[0], message=said)


def _settle(computed: Computed) -> str:
    return f"if the recipe is right, run: saponary sign {computed.file.slug}"


def _signed(computed: Computed) -> Iterator[Finding]:
    for name, text in computed.model.signed.items():
        path = ("signed", name)
        if name == FINGERPRINT:
            if not matches(text, computed.fingerprint):
                yield computed.finding(
                    RULE.name,
                    path,
                    f"the formula is signed as {text} and is now {computed.fingerprint}",
                    _settle(computed),
                )
            continue
        figure = computed.catalogue.get(name)
        if figure is None:
            yield computed.finding(
                RULE.name,
                path,
                f"there is no figure {name!r}",
                suggest(name, computed.catalogue, "figures"),
                key=True,
            )
            continue
        yield from _compared(figure, text, computed.place(path), "signed", _settle(computed))


def _quoted(
    file: TextFile, figures: Mapping[str, Figure], quote: Quote, hint: str, where: str = ""
) -> Iterator[Finding]:
    figure = figures.get(quote.name)
    if figure is None:
        known = f"{suggest(quote.name, figures, 'figures')} (a plain brace is written \\{{)"
        message = f"there is no figure {quote.name!r}"
        yield Finding(RULE.name, "error", file.place_at(quote.start), message, known)
    elif quote.value is not None:
        place = file.place_at(quote.value_start)
        yield from _compared(figure, quote.value, place, "quoted", hint, where, compare_quoted)


def _compared(
    figure: Figure,
    text: str,
    place: Place,
    how: str,
    hint: str,
    where: str = "",
    held: Callable[[Figure, str], Compared] = compare,
) -> Iterator[Finding]:
    try:
        compared = held(figure, text)
    except QuantityError as error:
        yield Finding(RULE.name, "error", place, str(error), error.hint)
        return
    if not compared.holds:
        message = f"{figure.name} is {how} as {text.strip()} and is now {compared.recomputed}{where}"
        yield Finding(RULE.name, "error", place, message, hint)


def check_book(context: ProofContext) -> Iterator[Finding]:
    """The figures of a lesson are those of its first recipe at each student's size."""
    built = Seen(context.recipes, lambda one: one.resolved)
    for read in context.book.classes:
        figures = figures_of(read, built, context.book.pantry, context.book.settings.units)
        if figures:
            hint = f"if the class is right, run: saponary sign {read.slug}"
            for quote in in_notes(read.body, offset=read.body_start):
                yield from _quoted(read, figures, quote, hint, ", in the first recipe at each student's size")


RULE = Rule(
    "stale",
    "stale",
    "A figure that is signed in the front matter, or quoted in the text, must be what the recipe "
    "gives today, at the precision it is written to. `saponary sign` writes today's figures.",
    recipe=check,
    book=check_book,
)
