"""A site is replaced whole or not at all, whatever happens to the build, and what no build wrote is left alone."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Collection
from pathlib import Path

import pytest

from saponary.assets.stamps import numbers
from saponary.build import exchange, survey, written
from saponary.build import write_site as output
from saponary.build.write_site import Refused, write_site
from support import REPOSITORY

PAGES = 40
LEFT = [".saponary", "site"]
LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the one-step exchange is Linux's")

Broken = Callable[..., None]


def site_of(version: str) -> dict[str, bytes]:
    return {f"p/{n}/index.html": f"{version} {n}".encode() for n in range(PAGES)}


def state(site: Path) -> str:
    """Which version stands there; fails where it is a mixture or incomplete."""
    words = {path.read_text().split()[0] for path in site.rglob("index.html")}
    assert len(words) == 1, f"a mixture: {words}"
    assert len(list(site.rglob("index.html"))) == PAGES, "an incomplete site"
    return words.pop()


def held(folder: Path) -> dict[str, bytes]:
    """Every file of a folder."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def names(folder: Path) -> list[str]:
    """What stands in a folder, and in the program's own folder there nothing but lists."""
    assert {p.suffix for p in (folder / ".saponary").iterdir()} <= {".list", ".stamps", ""}
    return sorted(p.name for p in folder.iterdir())


FOREIGN = {
    "CNAME": b"soap.example",
    ".nojekyll": b"",
    ".git/config": b"[core]",
    ".git/objects/aa/bb": b"\0object",
    ".well-known/security.txt": b"Contact: mailto:a@soap.example",
    "photos/of-the-stall.jpg": b"\xff\xd8",
    "p/left.html": b"a page of the maker's own",
}


def plant(folder: Path, files: dict[str, bytes]) -> None:
    for name, data in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)


def cannot_exchange(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(exchange, "exchange", lambda first, second: False)


def cannot_link(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError("no links here")

    monkeypatch.setattr(os, "link", refuse)


def cannot_be_moved(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os.path, "ismount", lambda path: True)


SYSTEMS = pytest.mark.parametrize(
    "system",
    [lambda _: None, cannot_exchange, cannot_link, cannot_be_moved],
    ids=["linux", "two steps", "no links", "mounted"],
)


@SYSTEMS
def test_what_no_build_wrote_outlasts_every_build(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, system: Broken
) -> None:
    system(monkeypatch)
    site = tmp_path / "site"
    plant(site, FOREIGN)
    (site / ".well-known/link").symlink_to("security.txt")
    (site / "empty").mkdir()
    found = write_site(site, site_of("old"))
    write_site(site, site_of("new"))
    write_site(site, {name: data for name, data in site_of("new").items() if name != "p/3/index.html"})
    write_site(site, site_of("new"))
    assert state(site) == "new" and names(tmp_path) == LEFT
    assert (found.files, found.foreign) == (PAGES, tuple(sorted([*FOREIGN, ".well-known/link", "empty"])))
    assert {name: (site / name).read_bytes() for name in FOREIGN} == FOREIGN
    assert (site / ".well-known/link").readlink() == Path("security.txt") and (site / "empty").is_dir()


@SYSTEMS
def test_what_is_no_longer_written_is_gone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, system: Broken
) -> None:
    system(monkeypatch)
    site = tmp_path / "site"
    write_site(site, {"a.html": b"a", "b/c/d.html": b"d", "shop/e.html": b"e"})
    write_site(site, {"shop/f.html": b"f"}, within=["shop/"])
    assert set(held(site)) == {"a.html", "b/c/d.html", "shop/f.html"}, "the other parts stay"
    write_site(site, {"a.html": b"a"})
    assert set(held(site)) == {"a.html"} and not (site / "b").exists() and not (site / "shop").exists()


@SYSTEMS
@pytest.mark.parametrize("before", [None, b"built"], ids=["never built", "changed since"])
def test_what_is_in_the_way_is_refused_and_may_be_adopted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, system: Broken, before: bytes | None
) -> None:
    system(monkeypatch)
    site = tmp_path / "site"
    if before is not None:
        write_site(site, {"index.html": before})
    plant(site, {"index.html": b"by hand", "mine.html": b"mine"})
    with pytest.raises(Refused) as refused:
        write_site(site, {"index.html": b"new", "b.html": b"b"})
    assert list(refused.value.faults) == ["site/index.html"]
    assert "--adopt" in refused.value.faults["site/index.html"][1]
    assert held(site) == {"index.html": b"by hand", "mine.html": b"mine"}
    write_site(site, {"index.html": b"new", "b.html": b"b"}, adopt=True)
    assert held(site) == {"index.html": b"new", "b.html": b"b", "mine.html": b"mine"}
    write_site(site, {"index.html": b"newer"})
    assert held(site) == {"index.html": b"newer", "mine.html": b"mine"}


def test_a_page_changed_by_hand_is_not_removed_unasked(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write_site(site, {"a.html": b"a", "b.html": b"b"})
    (site / "b.html").write_bytes(b"with a remark")
    with pytest.raises(Refused):
        write_site(site, {"a.html": b"a"})
    write_site(site, {"a.html": b"a"}, adopt=True)
    assert held(site) == {"a.html": b"a"}


@pytest.mark.parametrize("adopt", [False, True])
def test_no_folder_is_replaced_by_a_file_nor_a_file_by_a_folder(tmp_path: Path, adopt: bool) -> None:
    site = tmp_path / "site"
    plant(site, {"index.html/mine": b"mine", "recipes": b"no folder"})
    with pytest.raises(Refused) as refused:
        write_site(site, {"index.html": b"new", "recipes/a/index.html": b"a"}, adopt=adopt)
    assert set(refused.value.faults) == {"site/index.html", "site/recipes"}
    assert held(site) == {"index.html/mine": b"mine", "recipes": b"no folder"}


@pytest.mark.parametrize("adopt", [False, True])
def test_a_file_in_the_place_of_the_site_is_told_of(tmp_path: Path, adopt: bool) -> None:
    site = tmp_path / "site"
    site.write_bytes(b"a note")
    for _ in range(2):
        with pytest.raises(Refused, match="in the way") as refused:
            write_site(site, site_of("new"), adopt=adopt)
        assert list(refused.value.faults) == ["site"] and site.read_bytes() == b"a note"
    site.unlink()
    write_site(site, site_of("new"))
    assert state(site) == "new"


@SYSTEMS
def test_a_link_is_followed_into_a_folder_of_ours(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, system: Broken
) -> None:
    system(monkeypatch)
    site, deploy = tmp_path / "book/site", tmp_path / "www/html"
    site.parent.mkdir()
    site.symlink_to(deploy)
    with pytest.raises(Refused, match="in the way"):
        write_site(site, site_of("old"))
    deploy.mkdir(parents=True)
    for version in ("old", "new"):
        write_site(site, site_of(version))
        plant(deploy, {"robots.txt": b"by hand"})
        assert site.is_symlink() and state(deploy) == version
    assert [p.name for p in deploy.parent.iterdir()] == ["html"]
    assert (deploy / "robots.txt").read_bytes() == b"by hand"


def test_a_link_into_another_folder_is_refused_and_may_be_adopted(tmp_path: Path) -> None:
    site, other = tmp_path / "book/site", tmp_path / "other"
    site.parent.mkdir()
    write_site(site, site_of("old"))
    plant(other, {"thesis.txt": b"my thesis"})
    site.rename(tmp_path / "book/was")
    site.symlink_to(other)
    with pytest.raises(Refused) as refused:
        write_site(site, site_of("new"))
    assert "--adopt" in refused.value.faults["site"][1] and held(other) == {"thesis.txt": b"my thesis"}
    write_site(site, site_of("new"), adopt=True)
    assert state(other) == "new" and (other / "thesis.txt").read_bytes() == b"my thesis"


def test_a_link_in_the_place_of_a_file_is_not_followed(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write_site(site, {"a.html": b"a", "b/c.html": b"c"})
    plant(tmp_path, {"elsewhere": b"a", "far/c.html": b"far"})
    (site / "a.html").unlink()
    (site / "a.html").symlink_to(tmp_path / "elsewhere")
    (site / "b/c.html").unlink()
    (site / "b").rmdir()
    (site / "b").symlink_to(tmp_path / "far")
    with pytest.raises(Refused) as refused:
        write_site(site, {"a.html": b"A", "b/c.html": b"C"})
    assert set(refused.value.faults) == {"site/a.html", "site/b"}
    (site / "b").unlink()
    write_site(site, {"a.html": b"A", "b/c.html": b"C"}, adopt=True)
    assert held(site) == {"a.html": b"A", "b/c.html": b"C"} and not (site / "a.html").is_symlink()
    assert (tmp_path / "elsewhere").read_bytes() == b"a" and (tmp_path / "far/c.html").read_bytes() == b"far"


def test_without_its_list_a_site_is_known_by_its_bytes(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write_site(site, {"a.html": b"a", "b.html": b"b"})
    (tmp_path / ".saponary/site.list").unlink()
    write_site(site, {"a.html": b"a", "b.html": b"b"})
    write_site(site, {"a.html": b"a"})
    assert held(site) == {"a.html": b"a"}
    (tmp_path / ".saponary/site.list").write_bytes(b"\xff\n0  a.html\n")
    with pytest.raises(Refused):
        write_site(site, {"a.html": b"A"})


def test_a_failure_half_way_leaves_the_old_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    site = tmp_path / "site"
    write_site(site, site_of("old"))
    plant(site, FOREIGN)
    for name in ("flush_all",):
        with monkeypatch.context() as broken, pytest.raises(OSError, match="space"):
            broken.setattr(output, name, fail)
            write_site(site, site_of("new"))
    assert state(site) == "old" and names(tmp_path) == LEFT
    assert {name: (site / name).read_bytes() for name in FOREIGN} == FOREIGN


@pytest.mark.parametrize("name", ["/etc/x", "../x", "a/../../x", ""])
def test_nothing_is_written_outside(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="outside"):
        write_site(tmp_path / "site", {name: b"x"})
    assert list(tmp_path.iterdir()) == []


def test_a_site_left_aside_by_a_kill_is_put_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    cannot_exchange(monkeypatch)
    site = tmp_path / "site"
    write_site(site, site_of("old"))
    plant(site, FOREIGN)
    write_site(site, site_of("new"))
    site.rename(tmp_path / ".saponary/site-old")
    write_site(site, site_of("new"))
    assert state(site) == "new" and {name: (site / name).read_bytes() for name in FOREIGN} == FOREIGN


def test_without_links_what_is_not_ours_is_moved_and_outlasts_a_kill(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where nothing can be linked, the maker's own files are moved after the exchange."""

    clear = exchange.clear

    def killed(left: Path, folder: Path, own: Collection[str]) -> None:
        if left.exists():
            raise SystemError("killed")

    site = tmp_path / "site"
    write_site(site, site_of("old"))
    plant(site, FOREIGN)
    cannot_link(monkeypatch)
    with monkeypatch.context() as broken, pytest.raises(SystemError):
        broken.setattr(exchange, "clear", killed)
        write_site(site, site_of("new"))
    assert not (site / "CNAME").exists(), "the kill came too late to show anything"
    assert exchange.clear is clear
    write_site(site, site_of("new"))
    assert state(site) == "new" and {name: (site / name).read_bytes() for name in FOREIGN} == FOREIGN
    assert names(tmp_path) == LEFT


def test_a_file_saved_into_the_old_folder_meanwhile_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A program that stands in the folder goes on in the old one, wherever that is now."""
    site = tmp_path / "site"
    write_site(site, site_of("old"))
    plant(site, FOREIGN)
    here = os.open(site, os.O_RDONLY)
    swap = exchange.swap

    def then_save(new: Path, folder: Path, old: Path) -> Path:
        left = swap(new, folder, old)
        os.fchdir(here)
        Path("CNAME.tmp").write_bytes(b"other.example")
        Path("CNAME.tmp").replace("CNAME")
        os.utime("CNAME", ns=(10**19, 10**19))
        return left

    before = Path.cwd()
    monkeypatch.setattr(exchange, "swap", then_save)
    try:
        write_site(site, site_of("new"))
    finally:
        os.chdir(before)
        os.close(here)
    assert (site / "CNAME").read_bytes() == b"other.example" and state(site) == "new"


def stamps(site: Path) -> dict[str, tuple[int, int]]:
    """Each file's number and date in the file system."""
    return {
        path.relative_to(site).as_posix(): (path.stat().st_ino, path.stat().st_mtime_ns)
        for path in site.rglob("*")
        if path.is_file()
    }


def test_only_what_changed_is_touched(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write_site(site, {"a.html": b"a", "b/b.html": b"b", "c.html": b"c", "d.html": b"long"})
    (site / ".nojekyll").touch()
    before = stamps(site)
    write_site(site, {"a.html": b"a", "b/b.html": b"b", "c.html": b"C", "e.html": b"e"})
    after = stamps(site)
    assert set(after) == {".nojekyll", "a.html", "b/b.html", "c.html", "e.html"}, "what is gone is gone"
    assert {name for name in before if after.get(name) == before[name]} >= {".nojekyll", "a.html", "b/b.html"}
    assert (site / "c.html").read_bytes() == b"C" and after["c.html"][0] != before["c.html"][0]


def test_the_same_site_again_touches_nothing(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write_site(site, site_of("old"))
    folder, before, listed = site.stat(), stamps(site), (tmp_path / ".saponary/site.list").stat()
    assert write_site(site, site_of("old")).files == PAGES
    assert stamps(site) == before and (site.stat().st_ino, site.stat().st_mtime_ns) == (
        folder.st_ino,
        folder.st_mtime_ns,
    )
    assert (tmp_path / ".saponary/site.list").stat().st_mtime_ns == listed.st_mtime_ns
    assert names(tmp_path) == LEFT


def test_what_is_changed_by_hand_while_a_build_writes_is_not_taken_for_its_own(tmp_path: Path) -> None:
    site, now = tmp_path / "site", {"a.html": b"a", "b/b.html": b"new"}
    write_site(site, now | {"b/b.html": b"old"})
    seen = output.plan(site, {name: output.content(data) for name, data in now.items()})
    (site / "a.html").write_bytes(b"by hand")
    laid = seen.write()
    lies = {name: numbers((site / name).lstat()) for name in now}
    assert laid.stamps.keys() == now.keys() and laid.stamps["b/b.html"] == lies["b/b.html"]
    assert laid.stamps["a.html"] != lies["a.html"]
    with pytest.raises(Refused):
        write_site(site, now)


def test_without_links_a_file_keeps_its_date(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    site = tmp_path / "site"
    write_site(site, {"a.html": b"a", "b.html": b"b"})
    os.utime(site / "a.html", (1_000, 1_000))
    cannot_link(monkeypatch)
    write_site(site, {"a.html": b"a", "b.html": b"B"})
    assert (site / "a.html").stat().st_mtime == 1_000 and (site / "b.html").read_bytes() == b"B"


def test_all_that_is_fresh_is_flushed_before_the_exchange(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without power between the two, no page is empty: files, folders and the list are on the disk first."""
    site, order = tmp_path / "site", list[str]()
    write_site(site, {"a.html": b"a", "b/b.html": b"b"})
    real = os.fsync

    def fsync(handle: int) -> None:
        order.append(str(Path(f"/proc/self/fd/{handle}").readlink()).removeprefix(str(tmp_path)))
        real(handle)

    swap = exchange.swap

    def swapped(*paths: Path) -> Path:
        order.append("exchange")
        return swap(*paths)

    monkeypatch.setattr(os, "fsync", fsync)
    monkeypatch.setattr(exchange, "swap", swapped)
    write_site(site, {"a.html": b"a", "b/b.html": b"B", "c/c.html": b"c"})
    first, last = order[: order.index("exchange")], order[order.index("exchange") + 1 :]
    aside = "/.saponary/site-new"
    assert {f"{aside}/b/b.html", f"{aside}/c/c.html", aside, f"{aside}/b", f"{aside}/c", "/.saponary"} <= set(
        first
    )
    assert "" in last, "the folder in which the exchange was made"


def test_folders_keep_their_rights(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write_site(site, {"a/a.html": b"a"})
    site.chmod(0o750)
    (site / "a").chmod(0o711)
    write_site(site, {"a/a.html": b"A"})
    assert site.stat().st_mode & 0o777 == 0o750 and (site / "a").stat().st_mode & 0o777 == 0o711


def test_a_list_is_read_as_it_was_saved(tmp_path: Path) -> None:
    """It is what sha256sum reads: two blanks between digest and path."""
    file = tmp_path / "x.list"
    kept = written.of(Path("/a b"), [("p/a  b.html", written.digest(b"1")), ("ä.html", written.digest(b"2"))])
    written.save(file, kept)
    assert written.read(file) == kept
    assert written.read(tmp_path / "none") == written.Written()
    both = kept.joined(written.of(Path("/c"), [("ä.html", written.digest(b"3"))]))
    written.save(file, both)
    assert written.read(file) == both
    assert both.files["ä.html"] == {written.digest(b"2"), written.digest(b"3")}


KEPT = {f"kept/{n}.jpg": bytes([n]) for n in range(10)}
"""Files that are the same in every version."""

CHILD = """
import sys
from itertools import cycle
from pathlib import Path
from saponary.build.write_site import write_site
def pages(version):
    return {{f"p/{{n}}/index.html": f"{{version}} {{n}}".encode() for n in range({pages})}} | {kept!r}
print("go", flush=True)
for version in cycle(("new", "newer")):
    write_site(Path(sys.argv[1]), pages(version))
"""


@LINUX
@pytest.mark.slow
def test_killed_at_any_instant_the_site_is_whole(tmp_path: Path) -> None:
    site = tmp_path / "site"
    write_site(site, site_of("old") | KEPT)
    plant(site, FOREIGN)
    first = {name: stamps(site)[name] for name in (*KEPT, *FOREIGN)}
    environment = {**os.environ, "PYTHONPATH": str(REPOSITORY / "generator")}
    for round_ in range(12):
        child = subprocess.Popen(
            [sys.executable, "-c", CHILD.format(pages=PAGES, kept=KEPT), str(site)],
            stdout=subprocess.PIPE,
            env=environment,
        )
        assert child.stdout is not None and child.stdout.readline() == b"go\n"
        time.sleep(0.013 * round_)
        child.send_signal(signal.SIGKILL)
        child.wait()
        child.stdout.close()
        assert state(site) in ("old", "new", "newer")
        assert {name: stamps(site)[name] for name in (*KEPT, *FOREIGN)} == first
        assert all((site / name).read_bytes() == data for name, data in {**KEPT, **FOREIGN}.items())
    write_site(site, site_of("last"))
    assert state(site) == "last" and {name: (site / name).read_bytes() for name in FOREIGN} == FOREIGN
    assert names(tmp_path) == LEFT


def test_a_file_that_is_as_a_build_left_it_is_not_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site, pages = tmp_path / "site", {"a.html": b"a", "b/c.html": b"c"}
    write_site(site, pages)
    with monkeypatch.context() as watched:
        watched.setattr(survey, "digest", lambda _: pytest.fail("a file was read"))
        write_site(site, pages)
    (site / "a.html").write_bytes(b"b")
    with pytest.raises(Refused):
        write_site(site, pages)
    write_site(site, pages, adopt=True)
    assert held(site) == pages


@pytest.mark.slow
def test_few_changes_in_a_large_site_are_made_in_place(tmp_path: Path) -> None:
    site = tmp_path / "site"
    pages = {f"p/{n}.html": b"old" for n in range(output._MANY)}
    write_site(site, pages)
    folder = (site / "p").stat().st_ino
    del pages["p/9.html"]
    pages |= {"p/8.html": b"new", "q/1.html": b"new"}
    write_site(site, pages)
    assert held(site) == pages and (site / "p").stat().st_ino == folder
    write_site(site, pages | {f"p/{n}.html": b"newer" for n in range(100)})
    assert (site / "p").stat().st_ino != folder
