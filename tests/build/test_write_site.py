"""The site is replaced whole or not at all, whatever happens to the build."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from saponary.build import write_site as output
from support import REPOSITORY

PAGES = 40


def site_of(version: str) -> list[tuple[str, bytes]]:
    return [(f"p/{n}/index.html", f"{version} {n}".encode()) for n in range(PAGES)]


def state(site: Path) -> str:
    """Which version stands there; fails where it is a mixture or incomplete."""
    words = {path.read_text().split()[0] for path in site.rglob("index.html")}
    assert len(words) == 1, f"a mixture: {words}"
    assert len(list(site.rglob("index.html"))) == PAGES, "an incomplete site"
    return words.pop()


def test_a_second_site_replaces_the_first(tmp_path: Path) -> None:
    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    (site / "left.html").write_text("a page that is no more")
    (site / ".nojekyll").write_text("")
    output.write_site(site, site_of("new"))
    assert state(site) == "new"
    assert not (site / "left.html").exists()
    assert (site / ".nojekyll").exists()
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_failure_half_way_leaves_the_old_site(tmp_path: Path) -> None:
    def failing() -> Iterator[tuple[str, bytes]]:
        yield from site_of("new")[:7]
        raise RuntimeError("a template broke")

    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    with pytest.raises(RuntimeError):
        output.write_site(site, failing())
    assert state(site) == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("name", ["/etc/x", "../x", "a/../../x", ""])
def test_nothing_is_written_outside(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="outside"):
        output.write_site(tmp_path / "site", [(name, b"x")])
    assert list(tmp_path.iterdir()) == []


def test_without_an_exchange_a_site_left_aside_is_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(output, "_exchange", lambda first, second: False)
    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    output.write_site(site, site_of("new"))
    assert state(site) == "new"
    site.rename(tmp_path / ".site-old")
    output.recover(site)
    assert state(site) == "new"


def stamps(site: Path) -> dict[str, tuple[int, int]]:
    """Each file's number and date in the file system."""
    return {
        path.relative_to(site).as_posix(): (path.stat().st_ino, path.stat().st_mtime_ns)
        for path in site.rglob("*")
        if path.is_file()
    }


def test_only_what_changed_is_touched(tmp_path: Path) -> None:
    site = tmp_path / "site"
    output.write_site(site, [("a.html", b"a"), ("b/b.html", b"b"), ("c.html", b"c"), ("d.html", b"long")])
    (site / ".nojekyll").touch()
    before = stamps(site)
    output.write_site(site, [("a.html", b"a"), ("b/b.html", b"b"), ("c.html", b"C"), ("e.html", b"e")])
    after = stamps(site)
    assert set(after) == {".nojekyll", "a.html", "b/b.html", "c.html", "e.html"}, "what is gone is gone"
    assert {name for name in before if after.get(name) == before[name]} >= {"a.html", "b/b.html"}
    assert (site / "c.html").read_bytes() == b"C" and after["c.html"][0] != before["c.html"][0]


def test_the_same_site_again_touches_nothing(tmp_path: Path) -> None:
    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    folder, before = site.stat(), stamps(site)
    assert output.write_site(site, site_of("old")) == PAGES
    assert stamps(site) == before and (site.stat().st_ino, site.stat().st_mtime_ns) == (
        folder.st_ino,
        folder.st_mtime_ns,
    )
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_without_links_a_file_keeps_its_date(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError("no links here")

    site = tmp_path / "site"
    output.write_site(site, [("a.html", b"a"), ("b.html", b"b")])
    os.utime(site / "a.html", (1_000, 1_000))
    monkeypatch.setattr(os, "link", refuse)
    output.write_site(site, [("a.html", b"a"), ("b.html", b"B")])
    assert (site / "a.html").stat().st_mtime == 1_000 and (site / "b.html").read_bytes() == b"B"


def test_a_name_given_twice_does_not_reach_into_the_old_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def killed(*_: object) -> None:
        raise KeyboardInterrupt

    site = tmp_path / "site"
    output.write_site(site, [("a.html", b"old")])
    monkeypatch.setattr(output, "_swap", killed)
    with pytest.raises(KeyboardInterrupt):
        output.write_site(site, [("a.html", b"old"), ("a.html", b"new")])
    assert (site / "a.html").read_bytes() == b"old"


def test_a_link_in_the_place_of_a_file_is_replaced(tmp_path: Path) -> None:
    site = tmp_path / "site"
    output.write_site(site, [("a.html", b"a")])
    (tmp_path / "elsewhere").write_bytes(b"a")
    (site / "a.html").unlink()
    (site / "a.html").symlink_to(tmp_path / "elsewhere")
    output.write_site(site, [("a.html", b"a")])
    assert not (site / "a.html").is_symlink() and (site / "a.html").read_bytes() == b"a"


KEPT = [(f"kept/{n}.jpg", bytes([n])) for n in range(10)]
"""Files that are the same in every version."""

CHILD = """
import sys, time
from itertools import cycle
from pathlib import Path
from saponary.build.write_site import write_site
def pages(version):
    for n in range({pages}):
        time.sleep(0.001)
        yield f"p/{{n}}/index.html", f"{{version}} {{n}}".encode()
    yield from {kept!r}
print("go", flush=True)
for version in cycle(("new", "newer")):
    write_site(Path(sys.argv[1]), pages(version))
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the one-step exchange is Linux's")
def test_killed_at_any_instant_the_site_is_whole(tmp_path: Path) -> None:
    site = tmp_path / "site"
    output.write_site(site, [*site_of("old"), *KEPT])
    first = {name: stamps(site)[name] for name, _ in KEPT}
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
        assert {name: stamps(site)[name] for name, _ in KEPT} == first
        assert all((site / name).read_bytes() == data for name, data in KEPT)
    output.write_site(site, site_of("last"))
    assert state(site) == "last"
    assert [p.name for p in tmp_path.iterdir()] == ["site"]
