"""Builds a book in which something has changed since its last build."""

from __future__ import annotations

import argparse
import gc
from collections.abc import Callable, Sequence
from datetime import date

from saponary.assets.held_memory import hold_memory
from saponary.build.glimpse import Asked
from saponary.build.last_run import LastRun
from saponary.build.proof import Proof, uncollected
from saponary.build.put_editions import BuildResult, home
from saponary.build.unfinished import without_unfinished
from saponary.build.unwritten import of_refused
from saponary.build.write_site import Refused
from saponary.cli.asked_book import proofed
from saponary.cli.command import CLEAN, Misuse, Unwritten
from saponary.cli.is_asked import is_asked
from saponary.cli.progress import Shown
from saponary.cli.tell import stands, tell
from saponary.cli.told_again import Done, Telling
from saponary.cli.writing import writing
from saponary.reading.findings import suggest
from saponary.reading.findings_text import as_text
from saponary.schema.edition import Edition, asked_for, editions


def build_anew(given: argparse.Namespace, on: date, telling: Telling, last: LastRun) -> Done:
    """Proof the book and write its editions, as of a day, with nobody else writing to it."""
    is_asked(given.book)
    with writing(given.book, "build"):
        try:
            return _build(given, on, telling, last)
        finally:
            gc.unfreeze()  # whoever goes on after a build, as tests do, would keep every book for ever


def _build(given: argparse.Namespace, on: date, telling: Telling, last: LastRun) -> Done:
    last.begin()
    with uncollected():
        proof = proofed(given.book, Asked(given.edition, on))
        gc.freeze()  # all of it stays to the end: it is not looked through for what may go
    status = tell(proof, given.format, telling, strict=given.strict)
    sound, unfinished = without_unfinished(proof)
    if status != CLEAN and (sound.failed or given.strict):
        telling.err("nothing was written")
        return Done(status, stands=stands(proof))
    # The drawing libraries are behind these; a book with errors is told of them without waiting.
    from saponary.build.site import Stopped, build
    from saponary.outputs.pdf_engine import PressMissing

    hold_memory()
    wanted = _editions(given.edition, proof)
    press = _press(given.press, proof)
    try:
        done = build(sound, on, wanted, press, Shown(), adopt=given.adopt)
    except PressMissing as missing:
        raise Misuse(str(missing)) from missing
    except Stopped as stopped:
        raise Unwritten(as_text(stopped.findings)) from stopped
    except Refused as refused:
        raise Unwritten(as_text(of_refused(refused))) from refused
    line = telling.out if given.format == "text" else telling.err
    _tell(done, wanted, line)
    for file, errors in unfinished.items():
        line(f"left out, not signed and not sound yet: {file} ({errors} errors)")
    day = on.isoformat() if done.tells_day else None
    return Done(CLEAN, done.wrote, day, stands=stands(proof), stamps=done.stamps)


def _tell(done: BuildResult, wanted: Sequence[Edition], line: Callable[[str], None]) -> None:
    """Say what was written, and where."""
    line(f"{done.root}: {done.recipes} recipes, {done.files} files")
    if done.kept:
        some = ", ".join(done.kept[:_SOME]) + (", …" if len(done.kept) > _SOME else "")
        line(f"kept as it was, since no build wrote it: {some}")
    for edition in wanted:
        page = done.root / home(edition) / "index.html"
        alone = "" if edition.published else ", for the maker alone: keep it off the web"
        line(f"{edition.name}: {page.resolve().as_uri()}{alone}")


_SOME = 5
"""Files that are told by name."""


def _editions(asked: Sequence[str], proof: Proof) -> list[Edition]:
    """The editions asked for, each once."""
    settings = proof.book.settings
    known = editions(settings.editions)
    names = asked_for(asked, settings.build, known)
    for name in names:
        if name not in known:
            raise Misuse(f"there is no edition {name!r}; {suggest(name, known, 'editions')}")
    return [known[name] for name in names]


def _press(asked: bool, proof: Proof) -> list[str] | None:
    """The kinds of PDF to make; None for none. A book that lists kinds has them made always."""
    wanted: list[str] = list(proof.book.settings.press)
    return wanted if wanted or asked else None
