"""Names that some system cannot keep, or that are no part of an address: Windows' own list of devices (Microsoft's
"Naming Files, Paths, and Namespaces", from memory)."""

from __future__ import annotations

from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.reading.addresses import LONGEST, address_fault
from support import PLAIN, write_book

BAD = [
    "con", "nul", "prn", "aux", "com1", "lpt9", "", "Con", "a.", "a b", "a--b", "-a", "a-", "a_b", "\u00e9", "e\u0301",
    "a" * (LONGEST + 1), "\uff41", "a\u200b",
]  # fmt: skip
GOOD = ["a", "console", "com10", "lpt", "nulls", "quarry-strata", "a" * LONGEST, "7"]


@pytest.mark.parametrize("word", BAD)
def test_a_name_that_some_system_cannot_keep(word: str) -> None:
    assert address_fault(word)


@pytest.mark.parametrize("word", GOOD)
def test_a_name_that_all_systems_keep(word: str) -> None:
    assert address_fault(word) is None


@pytest.mark.parametrize(
    "name",
    [
        "con.md",
        "nul.md",
        "trailing..md",
        "Twin.md",
        "a" * 240 + ".md",
        "cafe\u0301.md",
        "caf\u00e9.md",
        "a b.md",
    ],
)
@pytest.mark.parametrize("folder", ["recipes", "classes"])
def test_a_file_of_such_a_name_is_a_finding(tmp_path: Path, name: str, folder: str) -> None:
    write_book(tmp_path, {"recipes/plain.md": PLAIN, "recipes/twin.md": PLAIN.replace("Plain", "Twin")})
    write_book(tmp_path, {f"{folder}/{name}": PLAIN})
    found = [f for f in prove(tmp_path).findings if "address" in f.message]
    assert len(found) == 1 and found[0].severity == "error" and found[0].place.file.startswith(f"{folder}/")
