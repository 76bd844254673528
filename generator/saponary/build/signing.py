"""What is about to be signed in a recipe: each signed figure as it is written and as it is today, and why it moved.

Told before anything is written, and kept in the message that is proposed for the commit.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from saponary.book.catalogue import signature
from saponary.book.computed import Computed
from saponary.book.figure import FINGERPRINT, Compared, compare
from saponary.book.moved import Moved
from saponary.build.compare_text import columns
from saponary.build.signed_at import Program, Since
from saponary.lye.fingerprint import matches
from saponary.quantity.rounding import show
from saponary.quantity.units import QuantityError
from saponary.reading.decode import printable

_PROGRAM: Mapping[Program, str] = {
    "tables": "the standard tables give other values",
    "engine": "the engine calculates otherwise",
    "engine or tables": "the engine or the standard tables changed",
}
_SUBJECT = 72
"""Letters that the first line of a commit's message is shown with. Common practice, no source."""


class Signing(NamedTuple):
    """One recipe: the signed figures that move, or are signed for the first time; `since` where git can tell."""

    file: str
    moved: tuple[Moved, ...]
    first: bool
    since: Since | None


def signing(computed: Computed, since: Since | None, *, adds: bool) -> Signing:
    """What is about to be signed. `adds` says whether lines that are lacking are signed too."""
    rows = list(_moving(computed))
    if adds:
        lines = signature(computed.catalogue, computed.resolved)
        rows += [
            Moved(name, None, value, None)
            for name, value in lines.items()
            if name not in computed.model.signed
        ]
    return Signing(computed.file.file, tuple(rows), not computed.model.signed, since)


def told(one: Signing) -> Iterator[str]:
    """Lines for a terminal."""
    when = f", signed {one.since.commit.on} ({one.since.commit.about})" if one.since is not None else ""
    yield printable(f"{one.file}{when}")
    yield from (f"  {line}" for line in columns(one.moved))
    if one.since is None:
        return
    yield from (f"  because {why}" for why in _reasons(one))
    named = {row.name for row in one.moved}
    beside = [row for row in one.since.moved if row.name not in named]
    if beside:
        yield "  and with it, not signed:"
        yield from (f"    {line}" for line in columns(beside))
    if one.since.program is not None and one.since.moved:
        yield f"  of that alone because {_PROGRAM[one.since.program]}:"
        yield from (f"    {row.name}  {row.signed}  ->  {row.today}" for row in one.since.alone)


def message(signings: Sequence[Signing]) -> str:
    """What may be said of the commit: the reason, then each recipe with the figures that move."""
    made = [one for one in signings if one.moved]
    whys = {why for one in made for why in _reasons(one)}
    names = [one.file.removeprefix("recipes/").removesuffix(".md") for one in made]
    what = f"Sign {names[0] if len(names) == 1 else f'{len(names)} recipes'}"
    reason = f"{what}: {next(iter(whys))}" if len(whys) == 1 else what
    lines = [reason if len(reason) <= _SUBJECT else what, ""]
    for name, one in zip(names, made, strict=True):
        lines.append(f"{name}: {', '.join(_shift(row) for row in one.moved if row.name != FINGERPRINT)}")
        lines += [f"  because {why}" for why in _reasons(one)]
    return "\n".join(map(printable, lines))


def _shift(row: Moved) -> str:
    return f"{row.name} {row.after}" if row.before is None else f"{row.name} {row.before} -> {row.after}"


def _reasons(one: Signing) -> Iterable[str]:
    if one.first:
        yield "it is signed for the first time"
    if one.since is not None:
        if one.since.files:
            files = ("the recipe" if file == one.file else file for file in one.since.files)
            yield f"{' and '.join(files)} changed"
        if one.since.program is not None:
            yield _PROGRAM[one.since.program]


def _moving(computed: Computed) -> Iterator[Moved]:
    """Each signed figure that no longer holds."""
    for name, text in computed.model.signed.items():
        if name == FINGERPRINT:
            if not matches(text, computed.fingerprint):
                yield Moved(name, text, computed.fingerprint, None)
        elif name in computed.catalogue:
            try:
                found = compare(computed.catalogue[name], text)
            except QuantityError:
                continue
            if not found.holds:
                yield Moved(name, " ".join(text.split()), found.recomputed, _by(found))


def _by(found: Compared) -> str | None:
    """How far a figure is from what is written, in the unit that it is written in."""
    number, _, unit = found.recomputed.partition(" ")
    off = Fraction(number) - found.written.value
    decimals = max(found.written.decimals or 0, len(number.partition(".")[2]))
    text = f"{'+' if off > 0 else ''}{show(float(off), decimals)} {'points' if unit == '%' else unit}"
    return text.rstrip()
