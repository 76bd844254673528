"""method: a key, a stage or a way of laying that does not go with the recipe's method."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, Place
from saponary.reading.tree import Path, Tree, placed
from saponary.schema.methods.method import Method


def check(computed: Computed) -> Iterator[Finding]:
    method, tree = computed.model.by, computed.file.tree
    yield from _refused(method, tree, computed.path, ())
    for record in computed.batches:
        if record.file != computed.path:
            yield from _refused(method, record.tree, record.file, record.path)
    yield from _stages(computed)
    for index, step in enumerate(computed.model.pour):
        kind = step.kind
        if kind and "pour" not in method.refuses and kind not in method.lays:
            said = f"{kind!r} cannot be laid of a soap that no longer runs"
            yield computed.finding(RULE.name, ("pour", index, kind), said, _one_of(method.lays), key=True)


def _refused(method: Method, tree: Tree, file: str, within: Path) -> Iterator[Finding]:
    """Keys of a file that the method refuses; of a key that is refused whole, not what is in it."""
    told: list[Path] = []
    for path, span in sorted(tree.keys.items(), key=lambda item: len(item[0])):
        name = ".".join(part for part in path if isinstance(part, str))
        if path[: len(within)] != within or name not in method.refuses:
            continue
        if any(path[: len(one)] == one for one in told):
            continue
        told.append(path)
        yield _finding(
            placed(span, file), f"{name!r} does not go with method: {method.name}", method.refuses[name]
        )


def _stages(computed: Computed) -> Iterator[Finding]:
    """Where something is put in, or a step is told, at a stage that the method does not have."""
    method, tree = computed.model.by, computed.file.tree
    known = (*method.stages, *(("portion",) if "split" in method.stages else ()))
    for path in tree.values:
        if path[-1:] != ("at",) or path[0] not in ("steps", "liquids", "additions", "portions"):
            continue
        at = _value(tree, path)
        if isinstance(at, str) and at not in known:
            said = f"there is no stage {at!r} in method: {method.name}"
            yield _finding(tree.place(computed.path, path), said, _one_of(known))


def _value(tree: Tree, path: Path) -> object:
    """What is written at a path."""
    found: Any = tree.data
    for part in path:
        found = found[part]
    return found


def _one_of(names: Iterator[str] | frozenset[str] | tuple[str, ...]) -> str:
    return f"it has {', '.join(sorted(names) if isinstance(names, frozenset) else names)}"


def _finding(place: Place, message: str, hint: str) -> Finding:
    return Finding(RULE.name, "error", place, message, hint)


RULE = Rule(
    "method",
    "sense",
    "Each method of making soap has its own stages and keys: a liquid soap has no mould and no pour, a rebatch no lye, "
    "and nothing in cold process is cooked.",
    recipe=check,
)
