"""A name is the same in whatever Unicode form it is written: é as one letter (NFC), or as e and an accent (NFD).

Keyboards write the one, some file systems and archives give back the other (Unicode Standard Annex 15).
"""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.cli.main import main
from saponary.reading.names import kept_as
from support import PLAIN, prove_one, write_book
from whole.edits import photo

FORMS = [("NFC", "NFD"), ("NFD", "NFC")]
WITH_PHOTO = PLAIN.replace("signed:", "photo: {file: Büste né.jpg, day: 14, alt: A pale bar}\nsigned:")


@pytest.mark.parametrize(("written", "kept"), FORMS)
def test_a_photo_is_found_whatever_its_name_s_form(written: str, kept: str, tmp_path: Path) -> None:
    notes = "\nSee ![a bar](../photos/Büste%20né.jpg)\n"
    name = unicodedata.normalize(kept, "photos/Büste né.jpg")
    text = unicodedata.normalize(written, WITH_PHOTO + notes)
    root = write_book(tmp_path, {"recipes/plain.md": text, name: photo((180, 120, 90))})
    assert not [f for f in prove(root).findings if f.rule == "photos"]
    assert main(["build", str(root), "--on", "2026-03-02"]) == 0
    page = (root / "site/recipes/plain/index.html").read_text("utf-8")
    assert page.count("<picture>") >= 2 and list((root / "site/photos").iterdir())


def test_a_lot_twice_in_two_forms_is_one_lot() -> None:
    lots = "".join(
        f"  - {{lot: {unicodedata.normalize(form, 'Né-1')}, poured: 2026-03-0{day}}}\n"
        for day, form in enumerate(("NFC", "NFD"), 1)
    )
    found = prove_one(PLAIN.replace("signed:", f"batches:\n{lots}signed:")).findings
    assert any("Né-1" in f.message and f.rule == "lots" for f in found), found


def test_a_key_twice_in_two_forms_is_there_twice() -> None:
    text = PLAIN.replace("    olive: 60 %", "    \u00f6l: 30 %\n    o\u0308l: 30 %")
    assert any("twice" in f.message for f in prove_one(text).findings)


def test_the_very_name_goes_before_one_in_another_form() -> None:
    one, other = (unicodedata.normalize(form, "né") for form in ("NFC", "NFD"))
    assert kept_as(one, {other, one}) == one and kept_as(other, {other, one}) == other
    assert kept_as(one, {other}) == other
    assert kept_as("ne", {other}) is None
