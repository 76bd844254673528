"""The README's tour prints what it says, and its recipe builds with the figures that it quotes."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from saponary.book.figure import compare
from saponary.cli.main import COMMANDS, main
from saponary.manual.keys import all_keys
from saponary.quantity.units import LENGTH, MASS, VOLUME
from saponary.schema.scalars import read_any_amount, read_mass
from support import REPOSITORY, prove_one

README = (REPOSITORY / "README.md").read_text(encoding="utf-8")


def block(kind: str) -> str:
    """The first block of a kind."""
    found = re.search(rf"^```{kind}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    assert found is not None, kind
    return found[1]


def turns() -> list[tuple[str, list[str]]]:
    """Each line that is typed, and what is said to be printed after it."""
    found: list[tuple[str, list[str]]] = []
    for line in block("console").splitlines():
        if line.startswith(("$ ", "# ")):
            found.append((line, []))
        else:
            found[-1][1].append(line)
    return found


def test_the_tour_prints_what_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    for typed, said in turns():
        if typed.startswith("# in "):
            file, _, changes = typed.removeprefix("# in ").partition(": ")
            text = Path(file).read_text(encoding="utf-8")
            for change in changes.split(", "):
                old, new = change.split(" -> ")
                assert text.count(old) == 1, old
                text = text.replace(old, new)
            Path(file).write_text(text, encoding="utf-8")
            continue
        words = shlex.split(typed)
        assert words[:2] == ["$", "saponary"]
        main(words[2:])
        printed = capsys.readouterr().out.splitlines()
        assert [line for line in said if line not in printed] == [], typed


def test_its_recipe_is_computed_without_a_fault_and_its_numbers_are_true() -> None:
    proof = prove_one(block("markdown"))
    assert [f.message for f in proof.findings if f.severity == "error"] == []
    figures = proof.recipes[0].computed.catalogue
    for name, said in re.findall(r"\{([a-z][a-z -]*) = ([^}]+)\}", README):
        assert compare(figures[name], said).holds, (name, said, figures[name].text())


def test_every_command_is_named() -> None:
    assert [command.name for command in COMMANDS if not re.search(rf"`{command.name}\b", README)] == []


def rows() -> dict[str, str]:
    """The table of what may be written, by what it is written for."""
    table = README.partition("| you write | in |\n|---|---|\n")[2].partition("\n\n")[0]
    return dict(re.findall(r"^\| ([^|]+) \| (.+) \|$", table, re.MULTILINE))


def test_the_table_has_every_unit_and_no_other() -> None:
    """Read from the units themselves. Milligrams are for certificates, not for a recipe."""
    wanted = {"weights": MASS.keys() - {"mg"}, "volumes": VOLUME.keys(), "lengths": LENGTH.keys()}
    for kind, units in wanted.items():
        assert set(re.findall(r"`([a-z]+)`", rows()[kind])) - {"g", "oz"} == set(units) - {"g", "oz"}, kind


def test_each_key_of_the_table_may_be_written() -> None:
    known = {key.name for key in all_keys()}
    told = [name for text in rows().values() for name in re.findall(r"[`{ ]([a-z][a-z-]+):(?= |`|$)", text)]
    assert {"lye-strength", "to-lye", "of-oils", "lye-stock", "dilute", "units", "both-units"} <= set(told)
    assert set(told) <= known


def test_each_amount_of_the_table_reads_as_one() -> None:
    for kind, read in (("weights", read_mass), ("rates of an addition", read_any_amount)):
        for text in re.findall(r"`(\d[^`]*)`", rows()[kind]):
            if not text.startswith("1,500"):
                assert read(text), text


def test_its_picture_is_there() -> None:
    for address in re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README):
        assert (REPOSITORY / address).is_file(), address
