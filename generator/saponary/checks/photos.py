"""photos: a photo that is not in the book, or colours read off it for a portion that is not. One that cannot be opened is found when the site is built."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.pictures import in_notes
from saponary.book.shots import named_photos, shots
from saponary.checks.rule import ProofContext, Rule
from saponary.lye.fingerprint import matches
from saponary.reading.findings import Finding, suggest


def check(computed: Computed) -> Iterator[Finding]:
    for name, place in named_photos(computed):
        if name not in computed.photos:
            yield Finding(
                RULE.name, "error", place, f"there is no photo photos/{name}", computed.instead[name]
            )
    yield from _portions(computed)


def _portions(computed: Computed) -> Iterator[Finding]:
    """Colours are read off portions that there are; those of a lot poured to an earlier formula may have had other names."""
    portions = [portion.name for portion in computed.model.portions]
    for shot, place, formula in shots(computed):
        if formula is not None and not matches(formula, computed.fingerprint):
            continue
        for name in shot.colours:
            if name not in portions:
                message = f"there is no portion {name!r}"
                yield Finding(
                    RULE.name, "error", place("colours", name), message, suggest(name, portions, "portions")
                )


def check_pages(context: ProofContext) -> Iterator[Finding]:
    for page in context.book.pages:
        for photo in in_notes(page):
            if photo.name not in context.book.photos:
                message, hint = (
                    f"there is no photo photos/{photo.name}",
                    suggest(photo.name, context.book.photos, "photos"),
                )
                yield Finding(RULE.name, "error", page.place_at(photo.at), message, hint)


RULE = Rule(
    "photos",
    "sense",
    "Photos lie in photos/, and each that a recipe, its notes, a page or a batch names can be opened. "
    "Colours are read off a photo for portions of the recipe.",
    recipe=check,
    book=check_pages,
)
