"""What a harness is: it tries one thing many times with a seed, and counts what was lost, broken or leaked."""

from __future__ import annotations

import hashlib
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from saponary.build.written import read
from support import PLAIN, write_book

SECRET = "zqsecret"


@dataclass
class Score:
    """What came of a harness's tries; `faults` tells the first few that went wrong."""

    tries: int = 0
    wrong: int = 0
    faults: list[str] = field(default_factory=list)

    def count(self, fault: str | None) -> None:
        self.tries += 1
        if fault:
            self.wrong += 1
            if len(self.faults) < 5:
                self.faults.append(fault)


@dataclass(frozen=True)
class Harness:
    """A harness: its name, what it does with a folder, a random source and a number of tries, and how many are a whole."""

    name: str
    run: Callable[[Path, random.Random, int], Score]
    whole: int
    share: int
    """Tries in the tests."""


def small_book(root: Path) -> Path:
    """Two recipes, one of them with something private in it, and foreign files in its site."""
    private = f"private: {SECRET}\nsigned:"
    return write_book(
        root,
        {
            "recipes/a.md": PLAIN.replace("signed:", private),
            "recipes/b.md": PLAIN.replace("Plain", "Other"),
            "site/CNAME": "soap.example",
            "site/.git/config": "[core]",
        },
    )


def fault_of_site(root: Path) -> str | None:
    """What is wrong with a book's site, whatever happened to it; None where it is whole, or not there yet."""
    site = root / "site"
    if (site / "CNAME").read_bytes() != b"soap.example" or (site / ".git/config").read_bytes() != b"[core]":
        return "a foreign file is gone"
    for path in site.rglob("*"):
        if path.is_file() and SECRET in path.name + path.read_bytes().decode("latin-1"):
            return f"private: {path}"
    listed = read(root / ".saponary/site.list").files
    there = {p.relative_to(site).as_posix(): p for p in site.rglob("*") if p.is_file()}
    own = {name: path for name, path in there.items() if name in listed}
    if own and "index.html" not in own:
        return "the site has pages and no index"
    for name, path in own.items():
        if hashlib.sha256(path.read_bytes()).hexdigest() not in listed[name]:
            return f"{name} is not as any build wrote it"
    strange = there.keys() - listed.keys() - {"CNAME", ".git/config"}
    return f"left over: {sorted(strange)[:3]}" if strange else None


def parts_left(root: Path) -> str | None:
    """Files that are not whole, after a run that came to its end."""
    left = [p for p in root.rglob("*.part") if ".cache" not in p.parts]
    left += [*(root / ".saponary").glob("*-new"), *(root / ".saponary").glob("*-old")]
    return f"left over: {left}" if left else None
