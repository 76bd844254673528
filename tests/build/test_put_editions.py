"""What is private never lies in what is uploaded, nor on its way there."""

from __future__ import annotations

import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import get_args

import pytest

from saponary.build import put_editions as module
from saponary.build.content import content
from saponary.build.put_editions import home
from saponary.build.write_site import Laid, Refused
from saponary.schema.edition import STANDARD, Edition, editions
from saponary.schema.seen import FIELDS, MAKERS, Shown

PUBLIC = next(edition for edition in STANDARD.values() if edition.is_public)
SHOP = STANDARD["shop"]
MAKER = next(edition for edition in STANDARD.values() if edition.shows == frozenset(FIELDS))
OWN = Edition("stall", SHOP.shows | {"costs"}, "ingredients")


def put_editions(
    root: Path, made: Mapping[Edition, Mapping[str, bytes]], *, adopt: bool = False
) -> dict[str, Laid]:
    told = {one: {name: content(data) for name, data in files.items()} for one, files in made.items()}
    return module.put_editions(root, told, adopt=adopt)


def held(folder: Path) -> set[str]:
    return {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}


@pytest.mark.parametrize("field", get_args(Shown))
def test_an_edition_with_anything_of_the_makers_own_is_private(field: Shown) -> None:
    own = Edition("own", frozenset({field}), "ingredients")
    assert own.published == (field not in MAKERS)
    assert home(own) == ("site/own/" if own.published else "private/own/")


def test_of_the_standard_editions_only_the_makers_is_private() -> None:
    assert {edition.name for edition in editions({}).values() if not edition.published} == {MAKER.name}
    assert home(PUBLIC) == "site/" and home(SHOP) == "site/shop/" and home(MAKER) == f"private/{MAKER.name}/"


def test_each_edition_lies_where_it_belongs(tmp_path: Path) -> None:
    made = {one: {"index.html": one.name.encode()} for one in (PUBLIC, SHOP, MAKER, OWN)}
    laid = put_editions(tmp_path, made)
    assert held(tmp_path / "site") == {"index.html", "shop/index.html"}
    assert held(tmp_path / "private") == {f"{MAKER.name}/index.html", "stall/index.html", ".gitignore"}
    assert {folder: one.files for folder, one in laid.items()} == {"private": 3, "site": 2}


def test_the_makers_edition_alone_makes_no_site(tmp_path: Path) -> None:
    put_editions(tmp_path, {MAKER: {"index.html": b"m"}})
    assert not (tmp_path / "site").exists()
    assert held(tmp_path / "private") == {f"{MAKER.name}/index.html", ".gitignore"}


def test_an_edition_that_became_private_leaves_the_site(tmp_path: Path) -> None:
    before = Edition("stall", SHOP.shows, "ingredients")
    put_editions(tmp_path, {PUBLIC: {"index.html": b"p"}, before: {"index.html": b"s"}})
    put_editions(tmp_path, {OWN: {"index.html": b"costs"}})
    assert held(tmp_path / "site") == {"index.html"} and "stall/index.html" in held(tmp_path / "private")
    put_editions(tmp_path, {before: {"index.html": b"s"}})
    assert held(tmp_path / "site") == {"index.html", "stall/index.html"}
    assert "stall/index.html" not in held(tmp_path / "private")


def test_where_one_folder_is_refused_neither_is_written(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site/index.html").write_bytes(b"by hand")
    made = {one: {"index.html": one.name.encode()} for one in (PUBLIC, MAKER)}
    with pytest.raises(Refused):
        put_editions(tmp_path, made)
    assert not (tmp_path / "private").exists() and held(tmp_path / "site") == {"index.html"}
    put_editions(tmp_path, made, adopt=True)
    assert (tmp_path / "site/index.html").read_bytes() == PUBLIC.name.encode()


@pytest.mark.parametrize("name", ["private", "site"])
def test_a_private_folder_of_somebody_elses_is_not_emptied(tmp_path: Path, name: str) -> None:
    (tmp_path / name).mkdir()
    (tmp_path / name / "diary.txt").write_bytes(b"dear diary")
    for _ in range(2):
        put_editions(tmp_path, {PUBLIC: {"index.html": b"p"}, MAKER: {"index.html": b"m"}})
        assert (tmp_path / name / "diary.txt").read_bytes() == b"dear diary"


def test_git_sees_nothing_private_whatever_the_book_ignores(tmp_path: Path) -> None:
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    put_editions(tmp_path, {PUBLIC: {"index.html": b"p"}, MAKER: {"index.html": b"m"}})
    told = subprocess.run(
        ["git", "-C", str(tmp_path), "status", "--porcelain", "-uall"],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    assert "private" not in told and "site/index.html" in told
