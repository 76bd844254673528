"""`saponary labels FOLDER [RECIPE...] [--lot LOT]`."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from functools import partial
from pathlib import Path

from saponary.assets.store import FOLDER, DiskStore
from saponary.book.proofed import Proofed
from saponary.book.published import is_shown
from saponary.book.standing import unlabelled
from saponary.build.label_sheets import label_sheets
from saponary.build.proof import Proof
from saponary.build.put_editions import SITE
from saponary.checks.label_lot import WHY
from saponary.cli.asked_book import chosen, proofed, scope, unsound
from saponary.cli.command import CLEAN, FOUND, Misuse, Unwritten, book_option, day, today
from saponary.cli.export import write
from saponary.cli.progress import Shown
from saponary.outputs.filling import BrokenTemplate
from saponary.outputs.pdf_engine import PressMissing
from saponary.reading.findings import Finding, errors, suggest
from saponary.reading.findings_text import as_text
from saponary.schema.edition import STANDARD

_TOLD = ("label-fit", "label-lot", "label-facts")
"""Rules whose findings are told again beside what was written."""


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path, help="where the sheets go; none is written over")
    parser.add_argument("names", nargs="*", metavar="RECIPE", help="recipes by name or file (default: all)")
    parser.add_argument(
        "--lot",
        action="append",
        default=[],
        metavar="LOT",
        help="only labels of this lot, with its name, its date and the code of its page",
    )
    parser.add_argument(
        "--on",
        type=day,
        default=None,
        metavar="DATE",
        help="the day to treat as today (default: SOURCE_DATE_EPOCH, else today)",
    )
    book_option(parser)


def run(given: argparse.Namespace) -> int:
    root, meant = scope(given.names, given.book)
    if given.folder.resolve().is_relative_to((root / SITE).resolve()):
        raise Misuse(f"{SITE}/ is what you upload, and label sheets are yours alone: name another folder")
    proof = proofed(root)
    if unsound(proof, "made"):
        return FOUND
    if not proof.book.settings.label_sheets:
        raise Misuse("book.yaml has no grid of label paper: state label-sheets: (saponary manual labels)")
    asked = chosen(proof, meant)
    lots = [_lot(name, asked) for name in dict.fromkeys(given.lot)]
    recipes = [] if lots else [one for one in asked if _has_labels(one, told=bool(meant))]
    about = list({one.slug: one for one in (*recipes, *(one for one, _ in lots))}.values())
    wrong = errors(finding for one in about for finding in one.findings)
    if wrong:
        print(as_text(wrong))
        return FOUND
    made = _made(proof, recipes, lots, given)
    told = [finding for finding in proof.findings if finding.rule in _TOLD and _is_about(finding, about)]
    if told:
        print(as_text(told))
    if not made:
        print("no label sheet could be made; nothing was written")
        return FOUND
    write(given.folder, made)
    print("\n".join(f"{given.folder / name}" for name in made))
    return CLEAN


def _lot(name: str, asked: Sequence[Proofed]) -> tuple[Proofed, str]:
    """A lot with the recipe that it is of, of which labels can be made."""
    known = {one.slug: [record.batch.lot for record in one.computed.batches] for one in asked}
    one = next((one for one in asked if name in known[one.slug]), None)
    if one is None:
        every = [lot for lots in known.values() for lot in lots]
        hint = suggest(name, every, "lots") if every else "saponary record RECIPE records one"
        raise Misuse(f"no batch of the lot {name!r} is recorded; {hint}")
    why = unlabelled(one.computed, name)
    if why is not None and why != "unrecorded":
        said, hint = WHY[why]
        raise Misuse(f"lot {name} {said}, so that no labels of it are made; {hint}")
    _has_labels(one, told=True)
    return one, name


def _has_labels(one: Proofed, *, told: bool) -> bool:
    """Whether a recipe can have labels at all; Misuse where it cannot and that is to be told."""
    label = one.computed.model.label
    lacks = ""
    if label is None or label.net_weight is None:
        lacks = "states no net weight: write label: {net-weight: 100 g} with what its bar keeps"
    elif not is_shown(one, STANDARD["maker"]):
        lacks = "is kept out of the maker's edition by its editions:"
    if lacks and told:
        raise Misuse(f"{one.computed.file.file} {lacks}")
    return not lacks


def _made(
    proof: Proof, recipes: Sequence[Proofed], lots: Sequence[tuple[Proofed, str]], given: argparse.Namespace
) -> dict[str, bytes]:
    """The sheets by the names of their files."""
    store = DiskStore(proof.book.root / FOLDER)
    progress = partial(Shown(), "label sheets")
    try:
        made, failed = label_sheets(proof, recipes, lots, given.on or today(), store, progress)
    except PressMissing as missing:
        raise Misuse(str(missing)) from missing
    except BrokenTemplate as broken:
        raise Unwritten(as_text([broken.finding])) from broken
    if failed:
        raise Unwritten(as_text([one.fault() for one in failed]))
    return made


def _is_about(finding: Finding, about: Sequence[Proofed]) -> bool:
    return finding.place.file in {"book.yaml", *(one.computed.file.file for one in about)}
