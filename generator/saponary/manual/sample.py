"""The book that the topics' examples make up together, so that each is read and built as a maker's own is."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from saponary.build.proof import Proof
from saponary.build.sign import signed
from saponary.manual import bases
from saponary.manual.held import proved
from saponary.manual.topics import Fence, topics
from saponary.reading.findings import Finding
from saponary.reading.plain import is_list, is_map
from saponary.reading.yaml_tree import read_yaml

TITLE = "Sample book of the manual"

_POURED = """\
title: TITLE
oils: {total: 1000 g, parts: {olive: 55 %, coconut: 25 %, shea-butter: 15 %, castor: 5 %}}
superfat: 5 %
water: {lye-strength: 33 %}
mould: loaf-10
cut: 25 mm
portions: [{name: slate, share: 40 %, additions: [{what: activated-charcoal, amount: 3 g/kg}]}, \
{name: chalk, share: 35 %, additions: [{what: kaolin, amount: 10 g/kg}]}, \
{name: brick, share: 25 %, additions: [{what: rose-clay, amount: 10 g/kg}]}]
"""
"""What a block that shows a pour alone leaves out: one line a key."""

RECIPES = ("recipe", "pour")
"""Kinds of block that make a recipe."""

_MERGED = {"book": "book.yaml", "pantry": "pantry.yaml", "claims": "claims.yaml"}
_NAMED = {
    "recipe": "recipes/{}.md",
    "pour": "recipes/{}.md",
    "class": "classes/{}.md",
    "page": "pages/{}.md",
    "batches": "batches/{}.yaml",
}

ALLOWED = frozenset({"draft"})
"""What may be found in an example: that nobody has signed it yet."""


def files() -> dict[str, str]:
    """The sample book's files, by their path in it."""
    made: dict[str, str] = {}
    shared: dict[str, dict[str, Any]] = {"book.yaml": {"title": TITLE, "units": "g"}}
    for fence in _fences():
        if fence.kind in _MERGED:
            into = shared.setdefault(_MERGED[fence.kind], {})
            _merge(into, read_yaml(fence.text, fence.kind)[0].data)
        elif fence.kind in _NAMED:
            made[_NAMED[fence.kind].format(fence.name)] = text_of(fence)
    return {**made, **{name: json.dumps(data, ensure_ascii=False) for name, data in shared.items()}}


def text_of(fence: Fence) -> str:
    """The whole file that a block stands for."""
    if fence.kind != "pour":
        return fence.text
    title = fence.name.replace("-", " ").capitalize()
    gone = bases.top_keys(fence.text)
    kept = [line for line in _POURED.splitlines() if line.partition(":")[0] not in gone]
    return bases.whole("recipe", "\n".join((*kept, fence.text)).replace("TITLE", title))


def sample() -> tuple[Proof, tuple[Finding, ...]]:
    """The sample book, signed; and what is found in it that ought not to be."""
    texts = files()
    first = proved(texts)
    faults = tuple(finding for finding in first.findings if finding.rule not in ALLOWED)
    if first.failed:
        return first, faults
    for file, new in signed(first, (), drafts=True):
        if new is not None:
            texts[file.file] = new
    return proved(texts), faults


def _fences() -> Iterator[Fence]:
    for topic in topics():
        yield from topic.fences()


def _merge(into: dict[str, Any], data: object) -> None:
    """Maps into maps; anything else takes the place of what was there."""
    if not is_map(data):
        return
    for key, value in data.items():
        old = into.get(str(key))
        if is_map(old) and is_map(value):
            both: dict[str, Any] = {**old}
            _merge(both, value)
            into[str(key)] = both
        else:
            into[str(key)] = _plain(value)


def _plain(value: object) -> Any:
    if is_map(value):
        return {str(key): _plain(inner) for key, inner in value.items()}
    return [_plain(one) for one in value] if is_list(value) else value


def by_name(proof: Proof) -> Mapping[str, Any]:
    """The proofed recipes of a book, by the name of their file."""
    return {one.computed.file.slug: one for one in proof.recipes}
