"""Recipes broken at random: whatever stands in a file, reading and proofing it raise nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bad.cases import FRONT
from saponary.book.library import read_book, read_recipe
from saponary.build.proof import Proof, prove_book
from saponary.build.report import as_json, as_sarif
from saponary.reading.files import Folder
from saponary.reading.findings import Finding
from saponary.reading.findings_text import as_text
from saponary.reading.tree import Lines
from saponary.schema.settings import Settings
from support import BOOKS, PLAIN, read_plain, write_book

pytestmark = pytest.mark.slow

BOUNDED = settings(
    max_examples=150,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
GOOD = [path.read_bytes() for root in BOOKS.values() for path in sorted((root / "recipes").glob("*.md"))]
WORDS = st.sampled_from(
    ["olive", "coconut", "45 %", "1/2", "100 g", "1000 g", "0 g", "-5 %", "1/0", "2 % of oils", "8 g/kg", "1 tbsp/kg",
     "kaolin", "oat-drink", "chalk", "lye", "trace", "33 %", "2.0", "nan", "2026-03-02", "7f3a9c", "#a4503c", "{lye}",
     "{lye = 1 g}", "&a", "*a", "!x", "<<", "~", "", "separate", "liquid-soap", "loaf-10", "100 %", "0.000000001 g"]
)  # fmt: skip
KEYS = st.sampled_from(
    ["title", "summary", "oils", "total", "fill", "parts", "olive", "share", "purity", "lye", "sodium", "potassium",
     "superfat", "water", "lye-strength", "to-lye", "of-oils", "liquids", "additions", "what", "amount", "at", "portions",
     "name", "pour", "beds", "of", "batches", "lot", "poured", "weighed", "signed", "waive", "steps", "say", "pots",
     "mould", "cut", "sizes", "private", "[key]", "0", "method", "infused"]
)  # fmt: skip
DATA = st.recursive(
    WORDS | st.text(max_size=8) | st.integers(-9, 9) | st.none() | st.booleans() | st.floats(),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(KEYS | st.text(max_size=4), inner, max_size=5)
    ),
    max_leaves=25,
)


def proof_of(content: bytes, root: Path) -> Proof:
    """Proof of one recipe, read from disk,."""
    return prove_book(read_book(Folder(write_book(root, {"recipes/tried.md": content}))))


def assert_sound(proof: Proof, content: bytes) -> None:
    as_text(proof.findings)
    as_json(proof)
    as_sarif(proof.findings)
    lines = Lines(content.decode("utf-8", "replace"))
    for finding in proof.findings:
        assert_inside(finding, lines)


def assert_inside(finding: Finding, lines: Lines) -> None:
    assert finding.message
    if finding.place.file == "recipes/tried.md":
        assert 1 <= finding.place.line <= len(lines.starts)
        assert finding.place.column >= 1
        ends = [*lines.starts[1:], 10**9]
        row = finding.place.line - 1
        assert finding.place.column <= ends[row] - lines.starts[row] + 1


@st.composite
def mutated(draw: st.DrawFn) -> bytes:
    """A good recipe with a few bytes taken out, put in or changed."""
    data = bytearray(draw(st.sampled_from(GOOD)))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, max(0, len(data) - 1)))
        some = draw(
            st.binary(max_size=4) | WORDS.map(str.encode) | st.sampled_from([b"\n", b": ", b"{", b"}", b"\r"])
        )
        data[at : at + draw(st.integers(0, 12))] = some
    return bytes(data)


@BOUNDED
@given(content=mutated())
def test_a_recipe_with_bytes_changed(content: bytes, tmp_path: Path) -> None:
    assert_sound(proof_of(content, tmp_path), content)


@BOUNDED
@given(data=st.dictionaries(KEYS, DATA, max_size=6), kept=st.sets(st.sampled_from(sorted(read_plain(FRONT)))))
def test_a_recipe_of_nested_nonsense(data: dict[str, object], kept: set[str], tmp_path: Path) -> None:
    good = read_plain(FRONT)
    front = yaml.safe_dump({**{key: good[key] for key in kept}, **data}, allow_unicode=True, sort_keys=False)
    content = f"---\n{front}---\nIt is {{superfat}}.\n".encode("utf-8", "replace")
    assert_sound(proof_of(content, tmp_path), content)


@BOUNDED
@given(
    data=st.dictionaries(
        st.sampled_from(sorted(Settings.model_json_schema()["properties"])), DATA, max_size=4
    )
)
def test_settings_of_nested_nonsense(data: dict[str, object], tmp_path: Path) -> None:
    text = yaml.safe_dump(data, allow_unicode=True).encode("utf-8", "replace")
    write_book(tmp_path, {"book.yaml": text})
    proof = proof_of(PLAIN.encode(), tmp_path)
    assert [f for f in proof.findings if f.place.file == "book.yaml" and f.place.line < 1] == []
    as_json(proof)


def test_the_good_recipes_are_read(tmp_path: Path) -> None:
    """What the mutations start from is itself without fault."""
    for content in GOOD:
        write_book(tmp_path, {"recipes/tried.md": content})
        assert read_recipe(Folder(tmp_path), "tried.md").findings == []
