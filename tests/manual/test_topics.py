"""The topics: every block is of a known kind, every example is part of a book that reads clean."""

from __future__ import annotations

import re
from functools import cache

import pytest

from saponary.build.proof import Proof
from saponary.cli.main import COMMANDS
from saponary.manual.find import keys
from saponary.manual.sample import RECIPES, files, sample
from saponary.manual.topic_lines import topic_lines
from saponary.manual.topics import Topic, topics
from saponary.reading.findings import Finding

KINDS = {
    "yaml",
    *RECIPES,
    "book",
    "pantry",
    "claims",
    "class",
    "page",
    "batches",
    "keys",
    "sh",
    "text",
    "css",
    "variables",
}
WANTED = {
    "first-recipe", "portions-and-pour", "batches-and-cure", "classes", "labels-and-law", "editions-and-publishing",
    "themes", "git", "editors", "upgrade",
}  # fmt: skip


@cache
def book() -> tuple[Proof, tuple[Finding, ...]]:
    return sample()


def test_the_topics_are_there_in_order() -> None:
    slugs = [topic.slug for topic in topics()]
    assert set(slugs) >= WANTED and slugs[0] == "first-recipe" and slugs[-1] == "upgrade"


def test_every_example_reads_clean_and_is_signed() -> None:
    proof, faults = book()
    assert [f"{fault.place} {fault.message}" for fault in faults] == []
    assert {one.status.name for one in proof.recipes} <= {"signed", "tested"}
    assert len(proof.recipes) == sum(fence.kind in RECIPES for topic in topics() for fence in topic.fences())


@pytest.mark.parametrize("topic", topics(), ids=lambda topic: topic.slug)
def test_a_topic_is_made_of_known_blocks_and_known_commands(topic: Topic) -> None:
    assert {fence.kind for fence in topic.fences()} <= KINDS
    known = {command.name for command in COMMANDS}
    assert set(re.findall(r"\bsaponary ([a-z]+)\b", topic.text)) <= known
    assert "```" not in "".join(part for part in topic.parts() if isinstance(part, str))


@pytest.mark.parametrize("kind", ["beds", "columns", "drops", "plops", "swirl", "line", "embeds", "top"])
def test_each_kind_of_pour_has_an_example_that_is_drawn(kind: str) -> None:
    (key,) = [one for one in keys(kind) if one.dotted == f"pour.{kind}"]
    assert key.meaning
    assert any(name.startswith(f"recipes/{kind}") for name in files())


def test_a_block_of_keys_reads_clean() -> None:
    """Those that are no whole file: each is tried in the small book of the keys."""
    from saponary.manual.bases import PHOTOS, book_of
    from saponary.manual.held import proved

    for topic in topics():
        for fence in topic.fences():
            if fence.kind == "keys":
                found = proved(book_of("recipe", fence.text.rstrip("\n")), PHOTOS).findings
                assert {one.rule for one in found} <= {"draft", fence.name}, fence.text


def test_the_variables_of_the_style_are_told_in_the_terminal_too() -> None:
    told = list(topic_lines(next(one for one in topics() if one.slug == "themes")))
    assert any(re.fullmatch(r"    --paper: #[0-9a-f]{6}", line) for line in told)
