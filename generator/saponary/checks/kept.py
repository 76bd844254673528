"""What the rules find in one recipe, and how a store keeps it: rule by rule, as JSON."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping

from saponary.assets.step import Step
from saponary.assets.store import Store
from saponary.book.computed import Computed
from saponary.reading.findings import Finding, Place

Found = Mapping[str, tuple[Finding, ...]]
"""By the name of the rule, what it found in one recipe."""

CHECKED = Step(
    "checked",
    ("recipe", "claim words"),
    (
        "quantity",
        "lye",
        "assets",
        "tables",
        "messages",
        "reading",
        "schema",
        "pantry",
        "book",
        "words",
        "label",
        "checks",
    ),
    ("pydantic", "markdown-it-py", "pyyaml", "fonttools", "font-source-sans-pro", "font-source-serif-pro"),
)
"""What every rule finds in one recipe."""


def checked(
    computed: Computed, identity: str, words: str, store: Store, find: Callable[[Computed], Found]
) -> Found:
    """What the rules find in a recipe of this identity, with claim words of this digest."""
    key = CHECKED.key(identity, words)
    kept = store.recall(key)
    found = _unpacked(kept) if kept is not None else None
    if found is None:
        found = find(computed)
        store.keep(key, _packed(found))
    return found


def _packed(found: Found) -> bytes:
    rows = {
        name: [
            [f.severity, f.place.file, f.place.line, f.place.column, f.message, f.hint, f.about] for f in of
        ]
        for name, of in found.items()
        if of
    }
    return json.dumps(rows).encode("ascii")


def _unpacked(kept: bytes) -> Found | None:
    try:
        return {
            name: tuple(
                Finding(name, severity, Place(file, line, column), message, hint, about)
                for severity, file, line, column, message, hint, about in rows
            )
            for name, rows in json.loads(kept).items()
        }
    except (ValueError, TypeError, AttributeError):
        return None
