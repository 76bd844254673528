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


@dataclass(frozen=True)
class Shift:
    """One figure before and after; None where a side has none of that name."""

    name: str
    was: Figure | None
    now: Figure | None

    @property
    def by(self) -> Figure | None:
        """The difference, where both are known and it is not shown as nought."""
        was, now = self.was, self.now
        if was is None or now is None or not (was.known and now.known):
            return None
        found = replace(now, value=now.value - was.value)
        return found if any(digit in "123456789" for digit in found.text()) else None


def shifts(old: Mapping[str, Figure], new: Mapping[str, Figure]) -> Iterator[Shift]:
    """Every figure that is shown differently in the units of the new ones, in their order."""
    for name in dict.fromkeys((*new, *old)):
        was, now = old.get(name), new.get(name)
        if was is not None and now is not None:
            was = replace(was, book=now.book)
        if was != now and _shown(was) != _shown(now):
            yield Shift(name, was, now)


def moved(old: Mapping[str, Figure], new: Mapping[str, Figure]) -> Iterator[Moved]:
    """The same as text."""
    for one in shifts(old, new):
        yield Moved(one.name, _shown(one.was), _shown(one.now), _signed(one.by))


def _signed(found: Figure | None) -> str | None:
    if found is None:
        return None
    text = found.text("points" if found.kind == "share" else None)
    return text if text.startswith("-") else f"+{text}"


def _shown(figure: Figure | None) -> str | None:
    if figure is None:
        return None
    return figure.text() if figure.known else "not known"
