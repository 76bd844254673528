"""Build: compose the editions of a proofed book and put its site in place.

A finding that is an error, a photo that cannot be used among them, stops the build before
anything is written.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial

from saponary.assets.once import Once
from saponary.assets.spread import Progress
from saponary.assets.store import FOLDER, DiskStore, Store
from saponary.book.engine import ENGINE
from saponary.book.late import LateMap
from saponary.book.proofed import Proofed
from saponary.build.content import Bytes, Content, content
from saponary.build.graph import PAGE
from saponary.build.history import changes_since, last_changes, sources_log
from saponary.build.pages import Earlier, Pages, still_known
from saponary.build.photos import Photos, make_ready, shown
from saponary.build.proof import Proof
from saponary.build.put_editions import BuildResult, put_editions, stamps_of, written_to
from saponary.build.shown import Shown, as_before, at_a_glance, keep, made_from, recalled, shown_now
from saponary.build.versions import versions
from saponary.build.while_still import WhileStill
from saponary.build.why import PROGRAM, Last, last_of, remember, why
from saponary.label.lists import Bar, bar
from saponary.outputs import rests_on
from saponary.outputs.compose import composition
from saponary.outputs.filling import BrokenTemplate
from saponary.outputs.rows import Rows
from saponary.outputs.templating import environment_of, templates_of
from saponary.reading.findings import Finding, errors
from saponary.schema.edition import Edition
from saponary.views.drawings import Drawings
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import SiteInput

Told = Callable[[str, int, int], None]
"""Told what is made, how many are done, and of how many."""


class Stopped(Exception):
    """The build stopped and wrote nothing; `findings` say why."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__(f"{len(findings)} findings")
        self.findings = findings


def build(
    proof: Proof,
    on: date,
    editions: Sequence[Edition],
    press: Sequence[str] | None = None,
    progress: Told | None = None,
    workers: int | None = None,
    *,
    adopt: bool = False,
) -> BuildResult:
    """Write editions of a book whose proof found no error, as of a day.

    `press` names the kinds of PDF to make, all of them where it is empty, none where it is None; `progress`
    is told how far the work is, edition by edition. `adopt` lets files be replaced that no build wrote. Raises Stopped where
    photos cannot be used, Refused where something is in the way, PressMissing where PDFs cannot be made.
    """
    if proof.failed:
        raise Stopped(errors(proof.findings))
    book = proof.book
    store = DiskStore(book.root / FOLDER)
    whole, photo_files = cut_from(proof, on, store, editions)
    maker = Maker(proof, whole, photo_files, press, progress, store, workers)
    sites = {edition: maker.site(edition) for edition in editions}
    try:
        made = {edition: maker.files(site) for edition, site in sites.items()}
    except BrokenTemplate as broken:
        raise Stopped([broken.finding]) from broken
    if maker.faults:
        raise Stopped(maker.faults)
    maker.store.look()
    laid = put_editions(book.root, made, adopt=adopt)
    made_of = _sources(proof)
    for name, (digests, told) in maker.rested_on.items():
        remember(store, name, Last(digests, made_of, told))
    maker.keep_shown(sites.values())
    store.tidy_at_times()
    recipes = max((len(site.recipes) for site in sites.values()), default=0)
    kept = tuple(f"{folder}/{path}" for folder, one in laid.items() for path in one.foreign)
    return BuildResult(
        book.root,
        sum(map(len, made.values())),
        recipes,
        kept,
        written_to(book.root, editions),
        stamps_of(book.root, laid),
        maker.tells_day,
    )


def explain(proof: Proof, on: date, edition: Edition, path: str) -> list[str] | None:
    """Why a file of an edition, by its path there, is made again or not; None where it is no page of it."""
    store = DiskStore(proof.book.root / FOLDER)
    whole, photo_files = cut_from(proof, on, store, [edition])
    maker = Maker(proof, whole, photo_files, None, None, store, 1)
    pages = maker.pages(maker.site(edition))
    file = pages.composed.file(path)
    if file is None:
        return None
    digests = {name: pages.digest(name) for name in file.uses}
    rows = {name: one.marks for name, one in pages.composed.context.rows.kinds.items() if name in digests}
    now = Last(digests, _sources(proof), Earlier(rows=rows))
    recipes = {one.slug: partial(proof.sources.of, one.slug) for one in proof.recipes}
    return list(why(file, edition.name, now, recipes, store))


def _sources(proof: Proof) -> Mapping[str, str]:
    """What the recipes rest on, and this program."""
    return {**proof.sources.all(), PROGRAM: PAGE.key("", {}).of}


def cut_from(
    proof: Proof, on: date, store: Store, editions: Sequence[Edition], known: Photos | None = None
) -> tuple[Unpublished, Mapping[str, Content]]:
    """What all editions are cut from, and the files of its photos. Raises Stopped where one cannot be used."""
    book = proof.book
    recipes = proof.recipes
    photos, photo_files, faults = make_ready(book, recipes, store, known)
    if faults:
        raise Stopped(faults)
    log = sources_log(book.root)
    once: Once = {}
    whole = Unpublished(
        book,
        recipes,
        ENGINE,
        book.pantry.version,
        photos=photos,
        earlier=changes_since(book, (one.computed for one in recipes if one.facts.earlier), log),
        changed=last_changes(book, log),
        versions=versions(book, store, log) if any("history" in one.shows for one in editions) else {},
        labels=LateMap({one.slug: one for one in recipes}, partial(_bar, once=once)),
        on=on,
    )
    return whole, photo_files


def _bar(one: Proofed, once: Once) -> Bar:
    return bar(one.computed, once)


class Maker:
    """Makes the files of one edition after another; what went wrong is in `faults`."""

    def __init__(
        self,
        proof: Proof,
        whole: Unpublished,
        photo_files: Mapping[str, Content],
        press: Sequence[str] | None,
        progress: Told | None,
        store: Store,
        workers: int | None,
    ) -> None:
        self.whole, self.photo_files, self.press = whole, photo_files, press
        self.glimpses = proof.glimpses
        self.progress, self.workers, book = progress, workers, proof.book
        self.templates = templates_of(book.root)
        self.store = WhileStill(store, self.templates[:-1])
        self.spoken = environment_of(self.templates, book.settings.language, book.settings.units)
        self.faults: list[Finding] = []
        self.tells_day = press is not None
        self.rested_on: dict[str, tuple[Mapping[str, str], Earlier]] = {}
        self._made_from: dict[str, Mapping[str, str]] = {}
        self._known: dict[str, Mapping[str, str]] = {}
        self._was: dict[str, Mapping[str, Shown]] = {}

    def _of(self, what: str) -> Progress | None:
        return None if self.progress is None else partial(self.progress, what)

    def site(self, edition: Edition, last: Mapping[str, Mapping[str, Shown]] | None = None) -> SiteInput:
        """An edition; recipes that are as it showed them last are published when they are asked about."""
        now = made_from(self.whole, edition)
        known = recalled(self.store, edition) if not last or edition.name not in last else last[edition.name]
        was = as_before(known, now)
        self._made_from[edition.name], self._was[edition.name] = now, was
        self._known[edition.name] = {name: of for one in was.values() for name, of in one.digests.items()}
        glances = self.glimpses.of(edition, self.whole.on)
        glances |= {slug: one.glance for slug, one in was.items()}
        glances |= at_a_glance(self.whole, edition, glances, self.workers)
        return for_edition(self.whole, edition, glances)

    def keep_shown(self, sites: Iterable[SiteInput]) -> None:
        """Leave behind what editions show; where their pages were made, what those rest on too."""
        for site in sites:
            keep(self.store, site.edition, self.shown_by(site))

    def shown_by(self, site: SiteInput) -> dict[str, Shown]:
        """What an edition shows."""
        name = site.edition.name
        digests = self.rested_on[name][0] if name in self.rested_on else self._known[name]
        glances = {recipe.slug: recipe.glance for recipe in site.recipes}
        return shown_now(glances, self._made_from[name], digests, self._was[name])

    def pages(self, site: SiteInput, after_a_build: bool = True) -> Pages:
        """The pages of an edition, not yet made; what the last build made is known to them where that is wanted."""
        rows = Rows(site.edition.name, self.store)
        drawn = Drawings(site, self.store)
        composed = composition(site, self.templates, drawn, self.spoken, rows, Bytes(self.photo_files))
        known = self._known[site.edition.name]
        last = last_of(self.store, site.edition.name) if after_a_build else None
        if last is not None and last.sources.get(PROGRAM) == PAGE.key("", {}).of:
            known = {**known, **still_known(composed, known, last.pages)}
        earlier = last.made if last is not None else None
        return Pages(composed, self.store, known, self.workers, self._of("pages"), earlier)

    def files(self, site: SiteInput) -> dict[str, Content]:
        """Every file of an edition's site, by its path in it."""
        files = {name: self.photo_files[name] for name in shown(site.photos.values())}
        wanted = []
        if self.press is not None:
            # What sets PDFs is imported where one is asked for.
            from saponary.outputs.pdf_kind import PdfContext
            from saponary.outputs.pdf_make import sheets

            drawn = Drawings(site, self.store)
            wanted = sheets(PdfContext(site, Bytes(files), self.spoken, drawn), self.press)
            site = replace(site, pdfs=frozenset(sheet.path for sheet in wanted))
        pages = self.pages(site)
        self.tells_day |= site.shows("shop") or any(
            rests_on.DAY in file.uses for file in pages.composed.files
        )
        made = pages.made()
        files |= made
        self.rested_on[site.edition.name] = pages.digests, pages.told(made)
        if wanted:
            from saponary.outputs.pdf_make import make

            pdfs, failed = make(Bytes(files), wanted, self._of("PDFs"), self.store)
            self.faults += [one.fault("site/") for one in failed]
            files |= {path: content(data) for path, data in pdfs.items()}
        return files
