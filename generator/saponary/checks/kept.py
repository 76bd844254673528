"""What the rules find in one recipe, and how a store keeps it: rule by rule, as JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping

from saponary.assets.step import TO_THE_LABEL, Step
from saponary.assets.store import Key, Store
from saponary.reading.findings import Finding, Place

Found = Mapping[str, tuple[Finding, ...]]
"""By the name of the rule, what it found in one recipe."""

CHECKED = Step(
    "checked",
    ("recipe", "claim words"),
    (*TO_THE_LABEL, "checks"),
    ("pydantic", "markdown-it-py", "pyyaml", "fonttools", "font-source-sans-pro", "font-source-serif-pro"),
)
"""What every rule finds in one recipe."""


def recalled(store: Store, key: Key) -> Found | None:
    """What is kept under a key; None where nothing is."""
    kept = store.recall(key)
    return _unpacked(kept) if kept is not None else None


def keep(store: Store, key: Key, found: Found) -> None:
    """Keep what was found."""
    store.keep(key, _packed(found))


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
