"""Where the editions of a book are put: what may be published into `site/`, what may not into `private/`.

The public edition stands at the top of the site, every other in a folder of its name. What is uploaded
is the whole of `site/`; nothing private is ever in it, nor on its way into it.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

from saponary.build.content import Content, content
from saponary.build.write_site import Laid, Plan, plan
from saponary.build.written import IGNORED, list_of, read
from saponary.schema.edition import Edition

SITE, PRIVATE = "site", "private"


class BuildResult(NamedTuple):
    """What a build wrote: into which book, how many files, how many recipes in the fullest edition."""

    root: Path
    files: int
    recipes: int
    kept: tuple[str, ...] = ()
    """What lies beside the build's files and is somebody else's."""
    wrote: tuple[Path, ...] = ()
    """The folders that are now as this build left them, with all that is in them."""
    stamps: Mapping[str, str] = {}
    """Of its files there, by path."""
    tells_day: bool = True
    """Whether on another day it might have written something else."""


def home(edition: Edition) -> str:
    """The folder of an edition's pages, from the book's, with `/` at its end."""
    if not edition.published:
        return f"{PRIVATE}/{edition.name}/"
    return f"{SITE}/" if edition.is_public else f"{SITE}/{edition.name}/"


def written_to(root: Path, editions: Iterable[Edition]) -> tuple[Path, ...]:
    """The folders that these editions are put into."""
    return tuple(root / home(edition) for edition in editions)


def put_editions(
    root: Path, made: Mapping[Edition, Mapping[str, Content]], *, adopt: bool = False
) -> dict[str, Laid]:
    """Put editions in place, the private ones first; what stands now, by folder. Nothing is written where one is refused.

    The public one is written with all others that are published, and nothing else stays of what builds wrote
    there. Without it each other replaces its own folder. An edition that was published once and is private
    now leaves `site/`, and the other way about.
    """
    plans = dict[str, Plan]()
    for folder in (PRIVATE, SITE):
        files, within = _files(folder, made), [f"{edition.name}/" for edition in made]
        if folder == SITE and any(edition.is_public for edition in made):
            within = [""]
        if files or _holds(root, folder, within):
            if folder == PRIVATE:
                files[IGNORED[0]] = content(IGNORED[1])
            plans[folder] = plan(root / folder, files, within=within, adopt=adopt)
    return {folder: planned.write() for folder, planned in plans.items()}


def stamps_of(root: Path, laid: Mapping[str, Laid]) -> dict[str, str]:
    """Stamps of the build's files in the book, by path."""
    found: dict[str, str] = {}
    for folder, one in laid.items():
        top = f"{root / folder}{os.sep}"
        found |= {top + path: told for path, told in one.stamps.items()}
    return found


def _files(folder: str, made: Mapping[Edition, Mapping[str, Content]]) -> dict[str, Content]:
    """The files that belong into a folder, by path in it."""
    top, found = f"{folder}/", dict[str, Content]()
    for edition, files in made.items():
        own = home(edition)
        if own.startswith(top):
            inside = own.removeprefix(top)
            found |= {inside + name: one for name, one in files.items()} if inside else files
    return found


def _holds(root: Path, folder: str, within: list[str]) -> bool:
    """Whether builds wrote something into these parts of a folder."""
    known = read(list_of(root / folder)).files
    return any(path.startswith(tuple(within)) for path in known)
