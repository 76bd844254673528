"""What the rules found in a recipe is found again in the store, and only for the very same recipe."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from saponary.assets.store import DiskStore
from saponary.build.proof import Proof, prove
from saponary.checks import run
from saponary.reading.findings import Finding
from support import PLAIN, copy_book, write_book

CLAIM = PLAIN.replace("A plain bar.", "A plain bar that heals eczema. It has {lye}.")
FILES = {
    "book.yaml": "title: A Small Book\n",
    "pantry.yaml": "scraps: {odds: {of: plain}}\ncolourants:\n  own: {name: Own, fresh: '#a4503c', cured: '#b98f86', usual: [1 g/kg, 2 g/kg]}\n",
    "recipes/plain.md": CLAIM,
    "recipes/other.md": PLAIN.replace("Plain Bar", "Other").replace(
        "superfat: 5 %\n", "superfat: 5 %\nadditions:\n  - {what: own, amount: 9 g, at: trace}\n  - {what: odds, amount: 50 g, at: pour}\n", 1
    ),
    "batches/other.yaml": "batches:\n  - {lot: B-1, poured: 2026-03-02}\n",
}  # fmt: skip


def edited(name: str, old: str, new: str) -> Callable[[Path], object]:
    assert old in FILES[name]
    return lambda root: (root / name).write_text(FILES[name].replace(old, new))


CHANGES: dict[str, tuple[Callable[[Path], object], set[str]]] = {
    "nothing": (lambda root: None, set()),
    "a recipe": (edited("recipes/other.md", "A plain bar.", "A bar that cures acne."), {"other"}),
    "a recipe that another holds scrap of": (edited("recipes/plain.md", "total: 1000 g", "total: 900 g"), {"plain", "other"}),
    "a batch elsewhere": (edited("batches/other.yaml", "B-1", "B-2"), {"other"}),
    "an entry of the pantry that one names": (edited("pantry.yaml", "2 g/kg", "20 g/kg"), {"other"}),
    "an entry that none names": (
        lambda root: (root / "pantry.yaml").write_text(FILES["pantry.yaml"] + "oils:\n  castor: {price: 9 / kg}\n"), set(),
    ),
    "a setting": (edited("book.yaml", "title: A Small Book", "superfat: 6 %"), {"plain", "other"}),
    "claim words": (
        lambda root: write_book(root, {"claims.yaml": "silence: [{id: hydrates, because: told by a doctor}]\n"}), {"plain", "other"},
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small book whose findings are kept."""
    root = write_book(tmp_path_factory.mktemp("kept") / "book", FILES)
    proof = prove(root, DiskStore(root / ".cache"))
    assert {"claims", "usual-rate", "unsigned"} <= {f.rule for f in proof.findings}
    return root


def looked_at(root: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Proof, set[str]]:
    """The proof of a book with a store, and the recipes that the rules looked at for it."""
    seen: set[str] = set()
    find = run.in_recipe

    def noting(computed: object, words: object) -> object:
        seen.add(computed.slug)  # type: ignore[attr-defined]
        return find(computed, words)  # type: ignore[arg-type]

    with monkeypatch.context() as changed:
        changed.setattr(run, "in_recipe", noting)
        return prove(root, DiskStore(root / ".cache")), seen


@pytest.mark.parametrize("what", CHANGES)
def test_what_a_change_reaches_is_looked_at_again(
    what: str, book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    change, reached = CHANGES[what]
    change(book)
    try:
        proof, seen = looked_at(book, monkeypatch)
        assert proof.findings == prove(book).findings
        assert seen == reached
    finally:
        (book / "claims.yaml").unlink(missing_ok=True)
        write_book(book, FILES)
        prove(book, DiskStore(book / ".cache"))


def test_a_damaged_record_of_findings_is_made_again(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for kept in (book / ".cache" / "checked").iterdir():
        kept.write_bytes(kept.read_bytes().replace(b"heals", b"cools"))
    proof, _ = looked_at(book, monkeypatch)
    assert proof.findings == prove(book).findings


@pytest.mark.slow
@pytest.mark.parametrize("name", ["starters", "demo"])
def test_a_book_is_told_the_same_from_the_store(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = copy_book(name, tmp_path)
    first: tuple[Finding, ...] = prove(root, DiskStore(root / ".cache")).findings
    proof, seen = looked_at(root, monkeypatch)
    assert seen == set() and proof.findings == first == prove(root).findings
