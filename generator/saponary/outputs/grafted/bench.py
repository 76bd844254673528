"""Sets one part of a book, and binds a book of parts that are set."""

from __future__ import annotations

from collections.abc import Mapping

from saponary.outputs.grafted import internals
from saponary.outputs.grafted.fragment import Fragment
from saponary.outputs.grafted.graft import Bound, joined
from saponary.outputs.grafted.host import host_of, one_of_each, specimen
from saponary.outputs.grafted.making import BindJob, PartJob
from saponary.outputs.grafted.prepared import prepare
from saponary.outputs.grafted.read_part import read_part
from saponary.outputs.grafted.stored import from_bytes, to_bytes
from saponary.outputs.pdf_engine import carried, opened, settings
from saponary.outputs.pdf_fit import fitted
from saponary.outputs.pdf_kind import SetPdf
from saponary.outputs.pdf_tags import mend


def set_part(files: Mapping[str, bytes], job: PartJob) -> SetPdf:
    """A part as a fragment in bytes. Raises internals.Moved."""
    html, shown = opened(files, job.html)
    prepare(html.etree_element, left=job.left, numbers=job.numbers)
    options = settings()
    document = fitted(html, **options)
    found: list[Fragment] = []

    def look(pdf: object) -> None:
        mend(document, pdf)
        found.append(read_part(document, pdf, job.name))

    internals.generated(document, options, look)
    return SetPdf(to_bytes(found[0]), tuple(dict.fromkeys(shown)))


def bind(files: Mapping[str, bytes], job: BindJob) -> SetPdf:
    """A book. Raises internals.Moved and FaceMissing."""
    parts = [Bound(from_bytes(data, ours=True), first, within) for data, first, within in job.parts]
    faces = one_of_each(face for part in parts for face in part.fragment.faces)
    html, shown = opened(files, job.html)
    specimen(html.etree_element, (same[0] for same in faces.values()))
    options = settings()
    host = host_of(html.render(**options), options, carried(job.attachments), faces)
    return SetPdf(joined(host, parts), tuple(shown))
