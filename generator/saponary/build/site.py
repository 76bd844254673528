"""Build: compose the editions of a proofed book and put its site in place.

The open edition stands at the top of the site, every other in a folder of its name. A
finding that is an error, a photo that cannot be used among them, stops the build before
anything is written.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from saponary.assets import resources
from saponary.build.history import changes_since, last_changes
from saponary.build.photos import make_ready, shown
from saponary.build.proof import Proof
from saponary.build.report import ENGINE, site_json
from saponary.build.write_site import write_site
from saponary.label.lists import bar
from saponary.messages.speaker import speaker
from saponary.outputs.compose import compose
from saponary.outputs.pdf_kind import PdfContext
from saponary.outputs.pdf_make import Failed, Progress, make, sheets
from saponary.outputs.templating import environment
from saponary.reading.findings import Finding, Place
from saponary.schema.edition import Edition
from saponary.views.edit import edit
from saponary.views.site import RecipeInput, SiteInput


class Stopped(Exception):
    """The build stopped and wrote nothing; `findings` say why."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__(f"{len(findings)} findings")
        self.findings = findings


@dataclass(frozen=True)
class BuildResult:
    """What a build wrote: where, how many files, how many recipes in the fullest edition."""

    site: Path
    files: int
    recipes: int


def build(
    proof: Proof,
    on: date,
    editions: Sequence[Edition],
    press: Sequence[str] | None = None,
    progress: Progress | None = None,
) -> BuildResult:
    """Write editions of a book whose proof found no error, as of a day.

    The open edition, where it is among them, replaces the whole of `site/` with all the
    others in it; without it each other replaces its own folder. `press` names the kinds of
    PDF to make, all of them where it is empty, none where it is None; `progress` is told of
    them, edition by edition. Raises Stopped where
    photos cannot be used, PressMissing where PDFs cannot be made.
    """
    if proof.failed:
        raise Stopped([f for f in proof.findings if f.severity == "error"])
    book = proof.book
    recipes = tuple(RecipeInput(one.computed, one.status, one.findings) for one in proof.recipes)
    photos, photo_files, faults = make_ready(book.root, recipes)
    if faults:
        raise Stopped(faults)
    labels = {r.slug: bar(r.computed) for r in recipes}
    earlier = changes_since(book, (one.computed for one in recipes))
    whole = SiteInput(
        book,
        recipes,
        ENGINE,
        book.pantry.version,
        photos=photos,
        earlier=earlier,
        changed=last_changes(book),
        labels=labels,
        on=on,
    )
    templates = [folder for folder in (book.root / "templates", resources.templates()) if folder.is_dir()]
    made_sites: dict[str, dict[str, bytes]] = {}
    most = 0
    for edition in editions:
        site = edit(whole, edition)
        slugs = [r.slug for r in site.recipes]
        most = max(most, len(slugs))
        site = replace(site, figures_json=site_json(proof, slugs, full=edition.formula == "full"))
        files = {name: photo_files[name] for name in shown(site.photos.values())}
        files |= {output.path: output.data for output in compose(site, templates)}
        if press is not None:
            context = PdfContext(site, files, environment(templates, speaker(book.settings.language)))
            pdfs, failed = make(files, sheets(context, press), progress)
            faults += [_fault(one) for one in failed]
            files |= pdfs
        made_sites["" if edition.is_open else f"{edition.name}/"] = files
    if faults:
        raise Stopped(faults)
    folder = book.root / "site"
    if "" in made_sites:
        count = write_site(
            folder, ((f"{at}{name}", data) for at, f in made_sites.items() for name, data in f.items())
        )
    else:
        folder.mkdir(exist_ok=True)
        count = sum(write_site(folder / at.rstrip("/"), files.items()) for at, files in made_sites.items())
    return BuildResult(folder, count, most)


def _fault(failed: Failed) -> Finding:
    return Finding("press", "error", Place(f"site/{failed.path}"), "this PDF cannot be set", failed.why)
