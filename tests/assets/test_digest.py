"""Digests tell values apart and are the same in every process."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

import pytest

from saponary.assets.digest import code_of, digest
from saponary.schema.edition import EditionEntry
from support import REPOSITORY


@dataclass(frozen=True)
class One:
    a: object
    b: object = ()


@dataclass(frozen=True)
class Two:
    a: object
    b: object = ()


DISTINCT = [
    None, True, 1, 1.0, "1", b"1", Fraction(1), "", b"", (), (None,), ("",), ("a", "b"), ("ab", ""), ("a", ("b",)),
    {"a": 1}, {"a": 1, "b": 2}, {"b": 2, "a": 1}, frozenset(), frozenset({"a"}), One("x"), Two("x"), One("x", "y"),
    One(("x", "y")), 0.1, 0.1 + 1e-17 + 1e-16, EditionEntry(shows=["notes"]), EditionEntry(shows=["costs"]),
]  # fmt: skip


def test_no_two_values_run_into_one() -> None:
    digests = [digest(value) for value in DISTINCT]
    same = [
        (DISTINCT[i], DISTINCT[j])
        for i, j in combinations(range(len(digests)), 2)
        if digests[i] == digests[j]
    ]
    assert not same


def test_sets_have_no_order() -> None:
    words = [f"w{n}" for n in range(50)]
    assert digest(frozenset(words)) == digest(frozenset(reversed(words)))


def test_a_value_has_one_digest_in_every_process() -> None:
    value = ("tallow", frozenset({"a", "b", "c"}), {"k": 0.1}, 2)
    told = {
        subprocess.run(
            [sys.executable, "-c", f"from saponary.assets.digest import digest; print(digest({value!r}))"],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(REPOSITORY / "generator")},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.strip()
        for seed in ("1", "2")
    }
    assert told == {digest(value)}


def test_what_is_no_data_is_refused() -> None:
    with pytest.raises(TypeError, match="no digest"):
        digest((object(),))


def test_code_is_told_apart_by_its_rooms() -> None:
    assert code_of("draw/pour") != code_of("draw/photos") != code_of("draw")
    assert code_of("quantity", "lye") == code_of("quantity", "lye") != code_of("quantity")
    assert code_of("assets/fonts.py") != code_of("assets/store.py")
