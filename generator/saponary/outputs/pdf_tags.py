"""The tags of a PDF put right where WeasyPrint leaves them short of PDF/UA-1 (ISO 14289-1).

Running heads and folios are artifacts of pagination, not text that a reader comes upon in every page; what
has an ID stands in a tree of IDs; a head of a table says what it is the head of; a link is described in its
own words and not by its address; a picture lies where its tag says. `mend` is a finisher of WeasyPrint.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

_POINTS = 0.75
"""PDF points in a pixel of CSS."""
_PARTS = {"@top": "/Header", "@bottom": "/Footer"}
"""What stands in a margin, by how its name in the style sheet begins."""


def mend(document: Any, pdf: Any) -> None:
    """Put the tags of `pdf`, as generated of `document`, right. Does nothing where there are none."""
    if "StructTreeRoot" not in pdf.catalog:
        return
    objects: list[Any] = pdf.objects
    root = objects[_number(pdf.catalog["StructTreeRoot"])]
    pages = [objects[number] for number in pdf.pages["Kids"][::3]]
    _words_and_heads(document)
    within = _within(root, objects)
    _pagination(document, pages, objects[_number(root["ParentTree"])]["Nums"], within, objects)
    found = [objects[number] for number in sorted(within)]
    _identified(pdf, root, found)
    heights = {page.reference: page["MediaBox"][3] for page in pages}
    for element in found:
        _placed(element, heights)


def _number(reference: Any) -> int:
    """The number of an object, of a reference to it."""
    return int(bytes(reference).split()[0])


def _is_dictionary(item: Any) -> bool:
    return isinstance(item, dict)


def _within(root: Any, objects: list[Any]) -> set[int]:
    """The numbers of the elements that hang in the tree."""
    found: set[int] = set()
    waiting = list(root["K"])
    while waiting:
        one = waiting.pop()
        if isinstance(one, int):
            continue
        number = _number(one)
        element = objects[number]
        if element.get("Type") == "/StructElem" and number not in found:
            found.add(number)
            waiting.extend(element["K"])
    return found


def _pagination(
    document: Any, pages: list[Any], numbers: list[Any], within: set[int], objects: list[Any]
) -> None:
    """Make artifacts of the text in margins, which WeasyPrint tags and hangs nowhere."""
    for at, page in enumerate(pages):
        parents = numbers[2 * at + 1]
        loose = {mcid for mcid, parent in enumerate(parents) if _number(parent) not in within}
        if not loose:
            continue
        kinds = iter(list(_in_margins(document.pages[at]._page_box)))
        stream = objects[_number(page["Contents"])].stream
        for place, item in enumerate(stream):
            if _is_dictionary(item) and item.get("MCID") in loose:
                parents[item["MCID"]] = "null"
                item.clear()
                item["Type"] = "/Pagination"
                if kind := next(kinds, ""):
                    item["Subtype"] = kind
                stream[place - 1] = "/Artifact"
    for one in objects:
        if _is_dictionary(one) and one.get("Type") == "/StructElem" and one.number not in within:
            one.clear()


def _in_margins(page: Any) -> Iterator[str]:
    """For each text in the margins of a page, in the order painted, whether it is of the head or the foot."""
    for box in page.children:
        name = getattr(box, "at_keyword", None)
        if name is not None:
            kind = next((kind for start, kind in _PARTS.items() if name.startswith(start)), "")
            yield from (kind for inner in _boxes(box) if getattr(inner, "text", None) is not None)


def _boxes(box: Any) -> Iterator[Any]:
    """A box, and all boxes in it."""
    box = getattr(box, "_box", box)
    yield box
    for child in getattr(box, "children", ()):
        yield from _boxes(child)


def _words_and_heads(document: Any) -> None:
    """Describe links in words, and say of each head whether it is one of a row or of a column."""
    import pydyf

    for page in document.pages:
        for box in _boxes(page._page_box):
            link = getattr(box, "link_annotation", None)
            if link:
                link["Contents"] = pydyf.String(_words(box) or link["Contents"].string)
            mark = getattr(box, "mark", None)
            if isinstance(mark, dict) and box.element_tag == "th":
                mark["A"]["Scope"] = "/Row" if box.element.get("scope") == "row" else "/Column"


def _words(box: Any) -> str:
    """What a link is called: its title, else its text as it stands in the document, else as it is printed."""
    element = box.element
    written = element.get("title") or element.get("aria-label") or "".join(element.itertext())
    printed = "".join(getattr(inner, "text", None) or "" for inner in _boxes(box))
    return " ".join((written if written.strip() else printed).split())


def _identified(pdf: Any, root: Any, elements: list[Any]) -> None:
    """The tree of IDs, in their order as bytes (ISO 32000-1, 7.9.6)."""
    import pydyf

    named = sorted(((one["ID"], one) for one in elements if "ID" in one), key=lambda pair: pair[0].data)
    if not named:
        return
    names = [part for name, element in named for part in (name, element.reference)]
    tree = pydyf.Dictionary({"Names": pydyf.Array(names)})
    pdf.add_object(tree)
    root["IDTree"] = tree.reference


def _placed(element: Any, heights: dict[Any, float]) -> None:
    """The place of a picture in points from the foot of its page, which WeasyPrint gives in pixels from its top."""
    import pydyf

    layout = element.get("A")
    if layout is None or "BBox" not in layout:
        return
    height = heights[element["Pg"]]
    left, top, right, bottom = (_POINTS * number for number in layout["BBox"])
    layout["BBox"] = pydyf.Array((left, height - bottom, right, height - top))
