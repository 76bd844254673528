"""What the rules find in one recipe, and what those about the whole book ask of it, as a build keeps it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pydantic import TypeAdapter, ValidationError

from saponary.assets.digest import digest
from saponary.assets.step import TO_THE_LABEL, Step
from saponary.assets.store import Key, Store
from saponary.book.facts import Facts
from saponary.book.outline import Outline
from saponary.checks.rule import Mention
from saponary.reading.findings import Finding
from saponary.reading.stamped import Noted


@dataclass(frozen=True)
class Checked:
    """One recipe, looked at: what was found in it, and what others ask of it.

    `found` is what its waivers leave of what was found in its own files, `used` are those of them that set something
    aside. `mentions` are by the rule that asks; `silenced` names the silenced claim words that it holds.
    """

    found: tuple[Finding, ...]
    elsewhere: tuple[Finding, ...]
    used: frozenset[int]
    mentions: Mapping[str, tuple[Mention, ...]]
    silenced: frozenset[str]
    facts: Facts


@dataclass(frozen=True)
class Kept:
    """A recipe as it was when its book was last proofed. `rests` is a digest of all that the rules looked at."""

    outline: Outline
    rests: str
    checked: Checked


CHECKED = Step(
    "checked",
    (),
    (*TO_THE_LABEL, "checks"),
    ("pydantic", "markdown-it-py", "pyyaml", "fonttools", "font-source-sans-pro", "font-source-serif-pro"),
)
"""Every recipe of a book as it was when the book was last proofed."""

_KEPT_AS = TypeAdapter(dict[str, Kept])
_STAMPS_AS = TypeAdapter(dict[str, Noted])
_STAMPS = Key("stamps", digest("of a book's files"))


def recalled(store: Store) -> dict[str, Kept]:
    """What is kept of the recipes of a book, by slug."""
    kept = store.recall(CHECKED.key())
    try:
        return _KEPT_AS.validate_json(kept) if kept is not None else {}
    except ValidationError:
        return {}


def keep(store: Store, recipes: Mapping[str, Kept]) -> None:
    """Keep the recipes of a book, in the place of those kept before."""
    store.keep(CHECKED.key(), _KEPT_AS.dump_json(dict(recipes)))


def stamps_recalled(store: Store) -> dict[str, Noted]:
    """What is kept of the stamps of a book's files."""
    kept = store.recall(_STAMPS)
    try:
        return _STAMPS_AS.validate_json(kept) if kept is not None else {}
    except ValidationError:
        return {}


def keep_stamps(store: Store, stamps: Mapping[str, Noted]) -> None:
    """Keep the stamps of a book's files, in the place of those kept before."""
    store.keep(_STAMPS, _STAMPS_AS.dump_json(dict(stamps)))
