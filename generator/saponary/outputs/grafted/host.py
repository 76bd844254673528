"""What a book has once, however many parts: its fonts, its metadata, and how the numbers of its pages are set.

WeasyPrint makes all of it of a small document with the head of the book's first part: two empty pages with
all ten digits for a number, and a letter of every face that a part has used. The glyphs of all parts are put
into its fonts before they are embedded.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from saponary.outputs.grafted import internals
from saponary.outputs.grafted.folio import DIGITS, Folio, read_folio
from saponary.outputs.grafted.fragment import Face, Piece
from saponary.outputs.grafted.pieces import Gathered


class FaceMissing(Exception):
    """A font that a part was set in is not found again."""


@dataclass(frozen=True)
class Host:
    """`objects` hold the fonts, the metadata and the files that are carried; `catalogue` and `info` are as
    pydyf has them, the catalogue without what names an object.
    """

    objects: tuple[Piece, ...]
    fonts: int
    metadata: int
    carried: int | None
    catalogue: Mapping[str, Any]
    info: Mapping[str, Any]
    folios: Mapping[bool, Folio]
    """By whether the page is a left one, where the style numbers it."""


def specimen(root: Any, faces: Iterable[Face]) -> None:
    """Change the tree of a part's HTML into the small document."""
    body = root.find("body")
    for child in list(body):
        body.remove(child)
    body.text = None
    body.set("data-folio", DIGITS)
    root.set("data-side", "right")
    first = body.makeelement("p", {})
    body.append(first)
    for face in faces:
        slant = "italic" if face.slanted else "normal"
        style = f"font: {slant} {face.weight} 10pt '{_quoted(face.family)}'"
        letter = first.makeelement("span", {"style": style})
        letter.text = next((text for text in face.texts.values() if text.strip()), "n")
        first.append(letter)
    second = body.makeelement("p", {"style": "break-before: page"})
    second.text = "n"
    body.append(second)


def _quoted(family: str) -> str:
    return "".join(f"\\{ord(letter):x} " if letter in "'\\\n" else letter for letter in family)


def one_of_each(faces: Iterable[Face]) -> dict[str, list[Face]]:
    """Faces by their names; those of one name are the same font with other glyphs."""
    found: dict[str, list[Face]] = {}
    for face in faces:
        found.setdefault(face.name, []).append(face)
    return found


def host_of(
    document: Any, options: dict[str, Any], carried: list[Any], faces: Mapping[str, list[Face]]
) -> Host:
    """Of the small document as laid out, with WeasyPrint's attachments to be carried. It is generated twice: its
    fonts are there after the first time. Raises FaceMissing and internals.Moved.
    """
    internals.generated(document, options, lambda pdf: None)
    fonts = internals.fonts(document)
    for name, same in faces.items():
        if name not in fonts:
            raise FaceMissing(f"no font is found again for {same[0].family}, weight {same[0].weight}")
        internals.widen(fonts[name], same)
    found: list[Host] = []
    options = {**options, "attachments": carried}
    internals.generated(document, options, lambda pdf: found.append(_read(document, pdf)))
    return found[0]


def _read(document: Any, pdf: Any) -> Host:
    catalogue = pdf.catalog
    gathered = Gathered(pdf, {})
    with internals.relying_on("Metadata, Lang, MarkInfo and ViewerPreferences in the catalogue"):
        metadata = gathered.place(internals.numbered(catalogue["Metadata"]))
        kept = {key: catalogue[key] for key in ("Lang", "MarkInfo", "ViewerPreferences")}
    names = catalogue.get("Names", {})
    carried = gathered.place(internals.numbered(names["EmbeddedFiles"])) if "EmbeddedFiles" in names else None
    fonts = gathered.place(internals.fonts_number(pdf))
    gathered.gather()
    return Host(
        tuple(gathered.pieces), fonts, metadata, carried, kept, dict(pdf.info), _folios(document, pdf)
    )


def _folios(document: Any, pdf: Any) -> dict[bool, Folio]:
    objects = internals.objects(pdf)
    widths = {name: font.widths for name, font in internals.fonts(document).items()}
    found: dict[bool, Folio] = {}
    for at, number in enumerate(internals.page_numbers(pdf)[:2]):
        for box, text in internals.margin_boxes(document.pages[at]).items():
            if text == DIGITS:
                with internals.relying_on(
                    "text in a content stream as one Tm, Tf and TJ with glyphs of four digits"
                ):
                    stream = objects[internals.numbered(objects[number]["Contents"])]
                    found[at == 1] = read_folio(box, internals.lines_of(stream), widths)
    return found
