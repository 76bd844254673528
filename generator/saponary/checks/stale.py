"""stale: a stated or quoted figure that the recomputed value does not round to."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.catalogue import FINGERPRINT, Figure, compare
from saponary.book.quotes import Quote
from saponary.checks.rule import Case, Rule
from saponary.lye.fingerprint import matches
from saponary.quantity.units import QuantityError
from saponary.reading.findings import Finding, Place, suggest


def check(case: Case) -> Iterator[Finding]:
    yield from _stated(case)
    for quote in case.quotes:
        yield from _quoted(case, quote)


def _settle(case: Case) -> str:
    return f"if the recipe is right, run: saponary restate {case.file.slug}"


def _stated(case: Case) -> Iterator[Finding]:
    for name, text in case.model.stated.items():
        path = ("stated", name)
        if name == FINGERPRINT:
            if not matches(text, case.fingerprint):
                yield case.finding(
                    RULE.name,
                    path,
                    f"the formula is stated as {text} and is now {case.fingerprint}",
                    _settle(case),
                )
            continue
        figure = case.catalogue.get(name)
        if figure is None:
            yield case.finding(
                RULE.name,
                path,
                f"there is no figure {name!r}",
                suggest(name, case.catalogue, "figures"),
                key=True,
            )
            continue
        yield from _compared(case, figure, text, case.place(path), "stated")


def _quoted(case: Case, quote: Quote) -> Iterator[Finding]:
    place = case.file.place_at(quote.start)
    figure = case.catalogue.get(quote.name)
    if figure is None:
        hint = suggest(quote.name, case.catalogue, "figures")
        yield Finding(
            RULE.name,
            "error",
            place,
            f"there is no figure {quote.name!r}",
            f"{hint} (a plain brace is written \\{{)",
        )
    elif quote.value is not None:
        yield from _compared(case, figure, quote.value, case.file.place_at(quote.value_start), "quoted")


def _compared(case: Case, figure: Figure, text: str, place: Place, how: str) -> Iterator[Finding]:
    try:
        compared = compare(figure, text)
    except QuantityError as error:
        yield Finding(RULE.name, "error", place, str(error), error.hint)
        return
    if not compared.holds:
        message = f"{figure.name} is {how} as {text.strip()} and is now {compared.recomputed}"
        yield Finding(RULE.name, "error", place, message, _settle(case))


RULE = Rule(
    "stale",
    "stale",
    "A figure that is stated in the front matter, or quoted in the text, must be what the recipe "
    "gives today, at the precision it is written to. `saponary restate` writes today's figures.",
    check,
    waivable=False,
)
