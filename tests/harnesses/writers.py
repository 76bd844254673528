"""Harnesses of what is written: overlapped commands, kills, a full disk, occupied folders."""

from __future__ import annotations

import random
import shutil
import time
from pathlib import Path

from harnesses.children import begin, run
from harnesses.harness import Harness, Score, fault_of_site, parts_left, small_book
from saponary.build.proof import prove
from support import PLAIN


def overlapped_records(folder: Path, chance: random.Random, tries: int) -> Score:
    """Several records of one recipe at once: each is there in the end."""
    score, root = Score(), small_book(folder / "book")
    recipe = root / "recipes/a.md"
    for turn in range(tries):
        recipe.write_text(PLAIN)
        children = [begin(["record", "a", "--book", str(root), "--on", "2026-03-02"]) for _ in range(3)]
        ended = [child.ended() for child in children]
        there = recipe.read_text().count("- lot:")
        fault = (
            None if there == ended.count(0) == 3 else f"{turn}: {there} of {ended.count(0)} records, {ended}"
        )
        score.count(fault or parts_left(root))
    return score


def saved_meanwhile(folder: Path, chance: random.Random, tries: int) -> Score:
    """An editor saves while a record is set in: neither is lost."""
    score, root = Score(), small_book(folder / "book")
    recipe = root / "recipes/a.md"
    for turn in range(tries):
        recipe.write_text(PLAIN)
        child = begin(["record", "a", "--book", str(root), "--on", "2026-03-02"])
        time.sleep(chance.random() * 0.2)
        remark = f"Saved {turn}.\n"
        now = recipe.read_text() + remark
        if chance.random() < 0.5:
            recipe.write_text(now)
        else:
            (folder / "saved").write_text(now)
            (folder / "saved").replace(recipe)
        status = child.ended()
        after = recipe.read_text()
        seen = now.count("- lot:")  # an editor that had the file open before writes over what came since
        lost = remark not in after or (status == 0 and after.count("- lot:") < seen)
        score.count(f"{turn}: {status} {after[-200:]!r}" if lost else parts_left(root))
    return score


def overlapped_builds(folder: Path, chance: random.Random, tries: int) -> Score:
    """Two builds, a record and a sign at once, in changing order."""
    score, root = Score(), small_book(folder / "book")
    for turn in range(tries):
        (root / "recipes/b.md").write_text(PLAIN.replace("Plain", f"Other {turn}"))
        (root / "recipes/a.md").write_text(
            PLAIN.replace("superfat: 5.0 %", "superfat: 5.0 %\n  lye: 139.8 g")
        )
        words = [
            ["build", str(root), "--edition", "all"],
            ["build", str(root)],
            ["record", "b", "--book", str(root), "--on", "2026-03-02"],
            ["sign", "--book", str(root), "a"],
        ]
        chance.shuffle(words)
        children = [begin(each) for each in words]
        ended = [child.ended() for child in children]
        fault = fault_of_site(root) or parts_left(root)
        if ended != [0] * 4:
            fault = f"{turn}: {ended} " + " ".join(c.said[-300:] for c in children if c.status)
        elif (root / "recipes/b.md").read_text().count("- lot:") != 1:
            fault = f"{turn}: the record is lost"
        score.count(fault)
    return score


def killed(folder: Path, chance: random.Random, tries: int) -> Score:
    """Builds of all editions killed at any instant: nothing private in the site, nothing half, the next is clean."""
    score, root = Score(), small_book(folder / "book")
    words = ["build", str(root), "--edition", "all"]
    run(words)
    for turn in range(tries):
        (root / "recipes/b.md").write_text(PLAIN.replace("Plain", f"Other {turn}"))
        begin(words).kill_after(chance.random() * 1.5)
        fault = fault_of_site(root)
        if fault is None and turn % 4 == 0:
            child = run(words)
            fault = fault_of_site(root) or parts_left(root) or (child.said if child.status else None)
        score.count(f"{turn}: {fault}" if fault else None)
    return score


def killed_edits(folder: Path, chance: random.Random, tries: int) -> Score:
    """Records killed at any instant: the recipe is the old one or the new."""
    score, root = Score(), small_book(folder / "book")
    recipe = root / "recipes/a.md"
    for turn in range(tries):
        recipe.write_text(PLAIN)
        begin(["record", "a", "--book", str(root), "--on", "2026-03-02"]).kill_after(chance.random() * 0.2)
        found = [one for one in prove(root).recipes if one.computed.slug == "a"]
        whole = bool(found) and recipe.read_text().count("- lot:") in (0, 1)
        score.count(None if whole else f"{turn}: {recipe.read_text()[-200:]!r}")
    run(["record", "a", "--book", str(root), "--on", "2026-03-02"])
    score.count(parts_left(root))
    return score


def full_disk(folder: Path, chance: random.Random, tries: int) -> Score:
    """A limit of a file's size stops each write in turn: a finding, the old site, and the next run is clean."""
    score, root = Score(), small_book(folder / "book")
    words = ["build", str(root)]
    run(words)
    for turn in range(tries):
        (root / "recipes/b.md").write_text(PLAIN.replace("Plain", f"Other {turn}"))
        child = run(
            words, limit=chance.choice([0, 1, 100, chance.randrange(5_000), chance.randrange(60_000)])
        )
        fault = fault_of_site(root)
        if child.status not in (0, 1) or "Traceback" in child.said:
            fault = f"{turn}: {child.status} {child.said[-300:]}"
        elif child.status == 1 and "[writing]" not in child.said:
            fault = f"{turn}: no finding: {child.said[-300:]}"
        score.count(fault)
    child = run(words)
    score.count(fault_of_site(root) or parts_left(root) or (child.said if child.status else None))
    return score


def occupied(folder: Path, chance: random.Random, tries: int) -> Score:
    """Something of somebody else's where a command writes: it is there afterwards as it was, whatever the command says."""
    score = Score()
    for turn in range(tries):
        root = folder / str(turn)
        place = root / chance.choice(
            [
                "site",
                "private",
                "site/index.html",
                "site/recipes",
                "site/recipes/a",
                "site/figures.json",
                ".saponary",
                ".cache",
            ]
        )
        small_book(root)
        if place.is_dir():
            shutil.rmtree(place)
        if not place.parent.is_dir():
            continue
        kind = chance.choice(["file", "folder", "link", "dangling link"])
        target = folder / f"far-{turn}"
        (target / "inner").mkdir(parents=True)
        (target / "inner/mine").write_text("mine")
        if kind == "file":
            place.write_text("mine")
        elif kind == "folder":
            place.mkdir()
            (place / "mine").write_text("mine")
        else:
            place.symlink_to(target / "inner" if kind == "link" else target / "nowhere")
        child = run(["build", str(root), "--edition", "all"])
        kept = (target / "inner/mine").read_text() == "mine" and (
            (kind == "file" and place.is_file() and place.read_text() == "mine")
            or (kind == "folder" and (place / "mine").read_text() == "mine")
            or ("link" in kind and place.is_symlink())
        )
        bad = child.status not in (0, 1, 2) or "Traceback" in child.said
        score.count(f"{place} {kind}: {child.status} {child.said[-300:]}" if bad or not kept else None)
    return score


HARNESSES = (
    Harness("three records of a recipe at once", overlapped_records, 150, 3),
    Harness("an editor saves while a record is set in", saved_meanwhile, 250, 8),
    Harness("two builds, a record and a sign at once", overlapped_builds, 60, 2),
    Harness("builds of all editions killed", killed, 200, 4),
    Harness("records killed", killed_edits, 300, 6),
    Harness("no room for a file", full_disk, 60, 3),
    Harness("folders that are somebody else's", occupied, 120, 4),
)
