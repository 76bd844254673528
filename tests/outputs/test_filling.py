"""A template of the book's own that fails is told of by file and line; none takes more than a page needs."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from saponary.cli.main import main
from saponary.messages.speaker import speaker
from saponary.outputs import filling
from saponary.outputs.filling import BrokenTemplate, fill
from saponary.outputs.templating import environment
from saponary.reading.findings import Place
from support import PLAIN, REPOSITORY, write_book

STANDARD = REPOSITORY / "templates"


def filled(root: Path, text: str | bytes, name: str = "gallery.html", **view: object) -> str:
    """A book's own template, filled."""
    write_book(root, {f"templates/{name}": text})
    return fill(environment([root / "templates", STANDARD], speaker("en")), name, **view)


@pytest.mark.parametrize(
    ("text", "line", "said", "hint"),
    [
        ("one\ntwo {{ \n", 2, "end of template", ""),
        ("{% for x in y %}\n", 1, "'endfor'", ""),
        ("{% bogus %}", 1, "bogus", ""),
        ("one\n{{ recipee.title }}", 2, "'recipee' is undefined", "did you mean 'recipe'?"),
        ("one\n\n{{ recipe.titel }}", 3, "has no attribute 'titel'", ""),
        ("one\n{% include 'part/bagde.html' %}", 2, "there is no template 'part/bagde.html'", "part/badge.html"),
        ("{% extends 'bases.html' %}", 1, "there is no template 'bases.html'", "did you mean 'base.html'?"),
        ("{{ 1 / 0 }}", 1, "division by zero", ""),
        ("\n{{ say('no.such.key') }}", 2, "no.such.key", ""),
        ("\n{{ ''.__class__.__mro__ }}", 2, "unsafe", ""),
        ("{% include 'gallery.html' %}", 1, "includes itself", ""),
        ("{{ 9 ** 999 }}", 1, "a power above", ""),
        ("\n{{ 'a' * 9999999999 }}", 2, "memory", "long texts"),
        ("\n{{ '%9999999999d' % 1 }}", 2, "memory", "long texts"),
        (b"\xff\xfe", 1, "not UTF-8", ""),
        ("{{ '\\ud800' }}", 1, "UTF-8", ""),
    ],
)  # fmt: skip
def test_a_fault_is_told_where_it_is(
    tmp_path: Path, text: str | bytes, line: int, said: str, hint: str
) -> None:
    with pytest.raises(BrokenTemplate) as broken:
        filled(tmp_path, text, recipe={"title": "Plain Bar"}, gallery={})
    found = broken.value.finding
    assert found.place == Place("templates/gallery.html", line), found
    assert said in found.message and hint in found.hint and "\n" not in found.message + found.hint


def test_a_fault_in_a_part_is_told_in_the_part(tmp_path: Path) -> None:
    write_book(tmp_path, {"templates/part/badge.html": "\n\n{{ nobody }}"})
    with pytest.raises(BrokenTemplate) as broken:
        filled(tmp_path, "{% include 'part/badge.html' %}")
    assert broken.value.finding.place == Place("templates/part/badge.html", 3)


@pytest.mark.parametrize(
    "text",
    [
        "{% for a in range(99999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}",
        "{% macro m() %}{% for a in range(99999) %}{{ caller() }}{% endfor %}{% endmacro %}"
        "{% call m() %}{% for b in range(99999) %}{% set c = b * b %}{% endfor %}{% endcall %}",
    ],
)
def test_an_endless_template_is_stopped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    monkeypatch.setattr(filling, "SECONDS", 0.2)
    began = time.monotonic()
    with pytest.raises(BrokenTemplate, match="longer than") as broken:
        filled(tmp_path, f"one\n{text}")
    assert broken.value.finding.place == Place("templates/gallery.html", 2)
    assert time.monotonic() - began < 5


@pytest.mark.parametrize(
    "text",
    [
        "{% set n = namespace(s='aaaaaaaaaaaaaaaa') %}{% for i in range(60) %}{% set n.s = n.s ~ n.s %}{% endfor %}",
        "{% for i in range(99999) %}{{ 'a' * 999 }}{% endfor %}",
    ],
)
def test_a_template_that_grows_is_stopped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    monkeypatch.setattr(filling, "MEMORY", 100_000_000)
    with pytest.raises(BrokenTemplate) as broken:
        filled(tmp_path, text)
    assert broken.value.finding.place.file == "templates/gallery.html"


def test_after_a_fault_all_is_as_before(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The bounds end with the template: no alarm goes off later, and memory is free again."""
    monkeypatch.setattr(filling, "SECONDS", 0.05)
    assert filled(tmp_path, "{{ 6 * 7 }} {{ 2 ** 10 }}") == "42 1024"
    time.sleep(0.15)
    with pytest.raises(BrokenTemplate):
        filled(tmp_path, "{{ 'a' * 9999999999 }}")
    assert len(bytes(filling.MEMORY)) == filling.MEMORY


def test_a_standard_template_that_fails_is_the_programs_fault() -> None:
    with pytest.raises(Exception, match="undefined") as fault:
        fill(environment([STANDARD], speaker("en")), "gallery.html")
    assert not isinstance(fault.value, BrokenTemplate)


@pytest.mark.parametrize("name", ["recipe.html", "base.html"])
def test_a_build_tells_of_it_and_writes_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN, f"templates/{name}": "\n{{ nobody }}"})
    assert main(["build", str(root)]) == 1
    said = capsys.readouterr()
    assert f"templates/{name}:2:1: error [template]" in said.err and "Traceback" not in said.err
    assert not (root / "site").exists()
