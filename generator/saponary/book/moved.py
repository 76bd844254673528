"""Which figures moved from one state of a recipe to another, as they are shown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from saponary.book.figure import Figure


@dataclass(frozen=True)
class Moved:
    """One figure, as shown before and after; None where a side has none of that name. `by` is the
    difference, shown with its sign, where both have one."""

    name: str
    before: str | None
    after: str | None
    by: str | None


def moved(old: Mapping[str, Figure], new: Mapping[str, Figure]) -> Iterator[Moved]:
    """Every figure that is shown differently, in the order of the new ones."""
    for name in dict.fromkeys((*new, *old)):
        was, now = old.get(name), new.get(name)
        if was == now:
            continue
        before, after = _shown(was), _shown(now)
        if before != after:
            both = was is not None and now is not None and was.known and now.known
            yield Moved(name, before, after, difference(was, now) if both and was and now else None)


def difference(was: Figure, now: Figure) -> str | None:
    """The difference with its sign; None where it is shown as nought."""
    found = replace(now, value=now.value - was.value)
    if not any(digit in "123456789" for digit in found.text()):
        return None
    text = found.text("points" if found.kind == "share" else None)
    return text if text.startswith("-") else f"+{text}"


def _shown(figure: Figure | None) -> str | None:
    if figure is None:
        return None
    return figure.text() if figure.known else "not known"
