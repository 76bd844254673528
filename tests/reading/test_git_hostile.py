"""A book that comes from a stranger with its history: nothing that its repository names is run, and nothing breaks."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
import zlib
from pathlib import Path

import pytest

from in_git import WHO, commit, git
from saponary.build.history import last_changes, sources_log
from saponary.build.proof import prove
from saponary.build.revisions import pair, renamed
from saponary.reading.files import Unread
from saponary.reading.git import Revision, objects
from saponary.reading.git_log import commits
from support import PLAIN, write_book

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="programs are shell scripts here")

NAMED = (
    "core.fsmonitor", "core.pager", "core.editor", "core.sshCommand", "core.alternateRefsCommand", "diff.external",
    "diff.e.textconv", "diff.e.command", "filter.e.clean", "filter.e.smudge", "filter.e.process", "filter.a=b c.clean",
    "gpg.program", "gpg.ssh.program", "pager.log", "pager.show", "pager.status", "pager.diff", "credential.helper",
    "alias.log", "alias.status", "alias.show", "alias.diff", "merge.e.driver", "uploadpack.packObjectsHook",
)  # fmt: skip
"""Settings of git that name a program, from its own manual (git-config, gitattributes)."""
HOOKS = ("post-index-change", "fsmonitor-watchman", "reference-transaction", "post-checkout")
ATTRIBUTES = "*.md filter=e diff=e merge=e\n*.yaml filter=a=b\\ c\n"


@pytest.fixture
def hostile(tmp_path: Path) -> Path:
    """A book of two commits whose repository runs a program wherever git can be told to."""
    root = write_book(tmp_path / "book", {"recipes/a.md": PLAIN, "book.yaml": "title: A book\n"})
    inner = write_book(root / "recipes" / "inner", {"x.md": "x"})
    commit(inner, "inside")
    commit(root, "first")
    write_book(root, {"recipes/a.md": PLAIN + "More.\n"})
    commit(root, "second")
    program = tmp_path / "program"
    program.write_text(f'#!/bin/sh\necho "$*" >> "{tmp_path}/ran"\ncat\n')
    program.chmod(0o755)
    (tmp_path / "hooks").mkdir()
    for hook in HOOKS:
        (tmp_path / "hooks" / hook).symlink_to(program)
    for place in (root, inner):
        for name in NAMED:
            git(place, "config", name, f"{program} {name}")
        for name, value in (
            ("filter.e.required", "true"),
            ("log.showSignature", "true"),
            ("core.hooksPath", str(tmp_path / "hooks")),
            ("diff.orderFile", str(tmp_path / "nowhere")),
            ("submodule.recurse", "true"),
        ):
            git(place, "config", name, value)
        (place / ".git/info").mkdir(exist_ok=True)
        (place / ".git/info/attributes").write_text(ATTRIBUTES)
        (place / ".gitattributes").write_text(ATTRIBUTES)
    os.utime(root / "recipes/a.md", (1, 1))
    os.utime(inner / "x.md", (1, 1))
    return root


@pytest.mark.slow
def test_nothing_that_a_repository_names_is_run(hostile: Path) -> None:
    log = sources_log(hostile)
    assert [one.about for one in log] == ["second", "first"]
    assert not last_changes(prove(hostile).book, log)["a"].again
    asked, _ = pair(hostile, ["HEAD~1"])
    assert asked.old.about == "first"
    renamed(hostile, asked)
    with objects(hostile) as held:
        assert held is not None
        assert Revision(hostile, held, asked.old.id).read("recipes/a.md") == PLAIN.encode()
    ran = hostile.parent / "ran"
    assert not ran.exists(), ran.read_text()


@pytest.mark.slow
def test_a_signed_commit_calls_no_program(hostile: Path) -> None:
    """A signature is a header of the commit (gitformat-signature)."""
    env = {**os.environ, **WHO}
    raw = subprocess.run(
        ["git", "-C", hostile, "cat-file", "commit", "HEAD"], check=True, capture_output=True, env=env
    ).stdout
    head, _, rest = raw.partition(b"\n\n")
    signed = head + b"\ngpgsig -----BEGIN PGP SIGNATURE-----\n \n aa\n -----END PGP SIGNATURE-----\n\n" + rest
    made = subprocess.run(
        ["git", "-C", hostile, "hash-object", "-t", "commit", "-w", "--stdin"],
        input=signed, check=True, capture_output=True, env=env,
    ).stdout.decode().strip()  # fmt: skip
    (hostile / ".git/HEAD").write_text(f"{made}\n")
    assert [one.about for one in commits(hostile, ["recipes"])] == ["second", "first"]
    assert pair(hostile, ["HEAD"])[0].old.about == "second"
    assert not (hostile.parent / "ran").exists()


@pytest.mark.slow
def test_what_is_lacking_is_not_fetched(hostile: Path) -> None:
    """A partial clone fetches what is missing; by its own transport that is a program (gitremote-helpers)."""
    for name, value in (
        ("remote.origin.url", f"ext::{hostile.parent}/program fetch"),
        ("remote.origin.promisor", "true"),
        ("remote.origin.partialclonefilter", "blob:none"),
        ("extensions.partialClone", "origin"),
        ("core.repositoryformatversion", "1"),
        ("protocol.ext.allow", "always"),
    ):
        git(hostile, "config", name, value)
    blob = git(hostile, "rev-parse", "HEAD~1:recipes/a.md")
    (hostile / ".git/objects" / blob[:2] / blob[2:]).unlink()
    with objects(hostile) as held:
        assert held is not None
        assert isinstance(Revision(hostile, held, "HEAD~1").read("recipes/a.md"), Unread)
    assert not (hostile.parent / "ran").exists()


@pytest.mark.parametrize(
    "about", ["a\x01b c", "a\x0cb\x1cc", "a\u2028recipes/z.md", "\x01" + "0" * 40 + " x y"]
)
def test_odd_messages_are_read_as_they_are(tmp_path: Path, about: str) -> None:
    root = write_book(tmp_path / "book", {"recipes/a.md": PLAIN})
    git(root, "init", "-q")
    git(root, "add", "-A")
    (tmp_path / "about").write_text(about)
    git(root, "commit", "-q", "-F", str(tmp_path / "about"))
    (found,) = commits(root, ["recipes"])
    assert (found.about, found.files) == (about, {"recipes/a.md"})


@pytest.mark.parametrize("day", ["999999999999999", "-5", "0", "253402300800", "nonsense"])
def test_a_day_that_no_calendar_has_breaks_nothing(tmp_path: Path, day: str) -> None:
    root = write_book(tmp_path / "book", {"recipes/a.md": PLAIN})
    commit(root, "first")
    tree = git(root, "rev-parse", "HEAD^{tree}")
    raw = f"tree {tree}\nauthor A <a> {day} +0000\ncommitter A <a> {day} +9999\n\nfar\n".encode()
    body = b"commit %d\0" % len(raw) + raw
    id = hashlib.sha1(body).hexdigest()
    place = root / ".git/objects" / id[:2] / id[2:]
    place.parent.mkdir(exist_ok=True)
    place.write_bytes(zlib.compress(body))
    (root / ".git/HEAD").write_text(f"{id}\n")
    assert all(one.id == id for one in commits(root, ["recipes"]))
    assert pair(root, ["HEAD"])[0].old.id == id


@pytest.mark.slow
def test_what_is_too_large_is_passed_over_and_the_next_is_read(tmp_path: Path) -> None:
    root = write_book(
        tmp_path / "book",
        {"recipes/a.md": PLAIN, "pantry.yaml": b"x" * 30_000_000, "book.yaml": "title: B\n"},
    )
    commit(root, "first")
    with objects(root) as held:
        assert held is not None
        old = Revision(root, held, "HEAD")
        assert "30 MB" in str(old.read("pantry.yaml"))
        assert old.read("book.yaml") == b"title: B\n"
        assert old.read("recipes/a.md") == PLAIN.encode()


def test_a_folder_with_a_line_end_in_its_name(tmp_path: Path) -> None:
    root = write_book(tmp_path / "top" / "bo\nok", {"recipes/a.md": PLAIN})
    commit(tmp_path / "top", "first")
    with objects(root) as held:
        if held is None:
            return
        old = Revision(root, held, "HEAD")
        assert old.read("recipes/a.md") in (PLAIN.encode(), old.read("no.md"))
        assert held.get("HEAD^{tree}") is not None
