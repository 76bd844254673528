"""Takes a part out of the PDF that WeasyPrint generated of it, as a fragment."""

from __future__ import annotations

from typing import Any
from urllib.parse import unquote

import pydyf

from saponary.outputs.grafted import internals
from saponary.outputs.grafted.fragment import ABOVE, FONTS, PAGES, STAMP, Fragment, SetPage, Target
from saponary.outputs.grafted.pieces import ForHole, Gathered
from saponary.outputs.grafted.prepared import ELSEWHERE


def read_part(document: Any, pdf: Any, name: str) -> Fragment:
    """`document` as laid out, `pdf` as generated of it and not yet written, `name` of the part in its book.

    Changes `pdf`. Raises Moved.
    """
    objects = internals.objects(pdf)
    numbers = internals.page_numbers(pdf)
    at_page = {number: at for at, number in enumerate(numbers)}
    above = internals.document_element(pdf)
    places = internals.destinations(pdf)
    _lead(pdf, places)
    ids = _identified(objects, name)
    pages = [objects[number] for number in numbers]
    for page in pages:
        page["Contents"] = pydyf.Array([ForHole(STAMP), page["Contents"]])
    known = {
        internals.pages_root(pdf): PAGES,
        internals.fonts_number(pdf): FONTS,
        above.number: ABOVE,
    }
    gathered = Gathered(pdf, known)
    at = gathered.all(numbers)
    kids = gathered.all(internals.numbered(kid) for kid in above["K"])
    parents = [gathered.piece(value) for value in internals.parent_tree(pdf)]
    elements = {one: gathered.place(number) for one, number in ids.items()}
    gathered.gather()
    return Fragment(
        objects=tuple(gathered.pieces),
        pages=tuple(
            SetPage(place, *_size(page), tuple(internals.margin_boxes(laid)))
            for place, page, laid in zip(at, pages, document.pages, strict=True)
        ),
        kids=tuple(kids),
        parents=tuple(parents),
        ids=elements,
        anchors={
            anchor: Target(at_page[internals.numbered(place[0])], float(place[2]), float(place[3]))
            for anchor, place in places.items()
        },
        marks=tuple(internals.marks(document)),
        faces=tuple(internals.faces(document)),
    )


def _size(page: Any) -> tuple[float, float]:
    left, top, right, bottom = page["MediaBox"]
    return float(right - left), float(bottom - top)


def _lead(pdf: Any, places: dict[str, Any]) -> None:
    """Links inside the part lead to their page and place, since other parts may have the same names; those
    into other parts lead to a name.
    """
    for link in internals.links(pdf):
        if "Dest" in link:
            link["Dest"] = places[link["Dest"].string]
        elif (address := link["A"]["URI"].string).startswith(ELSEWHERE):
            del link["A"]
            link["Dest"] = pydyf.String(unquote(address.removeprefix(ELSEWHERE)))


def _identified(objects: list[Any], name: str) -> dict[str, int]:
    """The numbers of elements by their IDs, which begin with the part's name now, as do those that name them."""
    found: dict[str, int] = {}
    seen: set[int] = set()
    for one in objects:
        if not internals.is_dictionary(one) or one.get("Type") != "/StructElem":
            continue
        headers = one["A"].get("Headers", ()) if "A" in one else ()
        for text in (*([one["ID"]] if "ID" in one else ()), *headers):
            if id(text) not in seen:
                seen.add(id(text))
                text.string = f"{name}-{text.string}"
        if "ID" in one:
            found[one["ID"].string] = one.number
    return found
