"""stale: a stated or quoted figure that the recomputed value does not round to."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.catalogue import FINGERPRINT, Figure, compare
from saponary.book.computed import Computed
from saponary.book.quotes import Quote
from saponary.checks.rule import Rule
from saponary.lye.fingerprint import matches
from saponary.quantity.units import QuantityError
from saponary.reading.findings import Finding, Place, suggest


def check(computed: Computed) -> Iterator[Finding]:
    yield from _stated(computed)
    for quote in computed.quotes:
        yield from _quoted(computed, quote)


def _settle(computed: Computed) -> str:
    return f"if the recipe is right, run: saponary restate {computed.file.slug}"


def _stated(computed: Computed) -> Iterator[Finding]:
    for name, text in computed.model.stated.items():
        path = ("stated", name)
        if name == FINGERPRINT:
            if not matches(text, computed.fingerprint):
                yield computed.finding(
                    RULE.name,
                    path,
                    f"the formula is stated as {text} and is now {computed.fingerprint}",
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
        yield from _compared(computed, figure, text, computed.place(path), "stated")


def _quoted(computed: Computed, quote: Quote) -> Iterator[Finding]:
    place = computed.file.place_at(quote.start)
    figure = computed.catalogue.get(quote.name)
    if figure is None:
        hint = suggest(quote.name, computed.catalogue, "figures")
        yield Finding(
            RULE.name,
            "error",
            place,
            f"there is no figure {quote.name!r}",
            f"{hint} (a plain brace is written \\{{)",
        )
    elif quote.value is not None:
        yield from _compared(
            computed, figure, quote.value, computed.file.place_at(quote.value_start), "quoted"
        )


def _compared(computed: Computed, figure: Figure, text: str, place: Place, how: str) -> Iterator[Finding]:
    try:
        compared = compare(figure, text)
    except QuantityError as error:
        yield Finding(RULE.name, "error", place, str(error), error.hint)
        return
    if not compared.holds:
        message = f"{figure.name} is {how} as {text.strip()} and is now {compared.recomputed}"
        yield Finding(RULE.name, "error", place, message, _settle(computed))


RULE = Rule(
    "stale",
    "stale",
    "A figure that is stated in the front matter, or quoted in the text, must be what the recipe "
    "gives today, at the precision it is written to. `saponary restate` writes today's figures.",
    check,
    waivable=False,
)
