"""A small reader of a PDF's tags: what is amiss with them, by ISO 14289-1 (PDF/UA-1) and ISO 32000-1, 14.7 and 14.8.

The clauses are quoted from memory. What it finds is a list of sentences; a sound PDF has none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from pypdf.generic import IndirectObject, NullObject

from outputs.pdfs.desk import read

_MARKED = re.compile(rb"/(\w+)\s*<<([^<>]*)>>\s*BDC|/(\w+)\s+BMC|\bEMC\b|(?<![\w.])(Tj|TJ)(?!\w)")
_MCID = re.compile(rb"/MCID\s+(\d+)")


def faults(pdf: bytes) -> list[str]:
    """All that is amiss."""
    reader = read(pdf)
    root: Any = reader.trailer["/Root"]
    tree: Any = root["/StructTreeRoot"].get_object()
    elements = dict(_elements(tree["/K"]))
    return [
        *_document(reader, root),
        *_content(reader, tree, elements),
        *_heads(tree, elements),
        *_links(reader, elements),
        *_pictures(reader, elements),
        *_headings(tree),
    ]


def contents(pdf: bytes) -> list[str]:
    """How each link of a PDF is described."""
    return [str(each["/Contents"]) for each in _annotations(read(pdf))]


def _listed(kids: Any) -> list[Any]:
    found: list[Any] = [*kids] if isinstance(kids, list) else [kids]
    return found


def _points(one: Any) -> bool:
    return isinstance(one, IndirectObject)


def _nothing(one: Any) -> bool:
    return isinstance(one, NullObject)


def _elements(kids: Any) -> Iterator[tuple[int, Any]]:
    for kid in _listed(kids):
        if _points(kid):
            element: Any = kid.get_object()
            if element.get("/Type") == "/StructElem":
                yield kid.idnum, element
                yield from _elements(element["/K"])


def _document(reader: Any, root: Any) -> Iterator[str]:
    if not root.get("/Lang"):
        yield "no language"
    if root.get("/MarkInfo", {}).get("/Marked") != True:  # noqa: E712
        yield "not said to be marked"
    if root.get("/ViewerPreferences", {}).get("/DisplayDocTitle") != True:  # noqa: E712
        yield "its title is not shown"
    if not (reader.metadata and reader.metadata.title):
        yield "no title"
    for at, page in enumerate(reader.pages, 1):
        if page.get("/Tabs") != "/S":
            yield f"page {at}: not gone through in the order of its tags"


def _content(reader: Any, tree: Any, elements: dict[int, Any]) -> Iterator[str]:
    """All text is tagged, its element hangs in the tree, and nothing in a margin is."""
    numbers = tree["/ParentTree"].get_object()["/Nums"]
    parents = dict(zip(numbers[::2], numbers[1::2], strict=True))
    for at, page in enumerate(reader.pages, 1):
        owners = parents[page["/StructParents"]]
        owners = owners.get_object() if _points(owners) else owners
        data = page.get_contents().get_data()
        depth: list[str] = []
        for found in _MARKED.finditer(data):
            if found[4]:
                if not depth:
                    yield f"page {at}: text that is neither tagged nor an artifact"
                continue
            if found[0] == b"EMC":
                depth.pop()
                continue
            depth.append((found[1] or found[3]).decode())
            number = _MCID.search(found[2] or b"")
            if number is None:
                if depth[-1] != "Artifact":
                    yield f"page {at}: {depth[-1]} without a number"
                continue
            owner = owners[int(number[1])]
            if _nothing(owner) or owner.idnum not in elements:
                yield f"page {at}: content {int(number[1])} hangs nowhere"
        if depth:
            yield f"page {at}: marks that are not ended"


def _heads(tree: Any, elements: dict[int, Any]) -> Iterator[str]:
    """Every ID stands in the tree of IDs in its order, and every cell's heads are among them."""
    named = {one["/ID"].original_bytes: number for number, one in elements.items() if "/ID" in one}
    names: list[Any] = tree["/IDTree"].get_object()["/Names"] if "/IDTree" in tree else []
    listed = {one.original_bytes: kid.idnum for one, kid in zip(names[::2], names[1::2], strict=True)}
    if listed != named:
        yield "the tree of IDs is another than the IDs"
    if list(listed) != sorted(listed):
        yield "the IDs are not in order"
    for element in elements.values():
        about = element.get("/A", {})
        if element["/S"] == "/TH" and about.get("/Scope") not in ("/Row", "/Column"):
            yield "a head of no row and no column"
        heads = about.get("/Headers", [])
        if element["/S"] == "/TD" and not heads:
            yield "a cell without heads"
        if any(head.original_bytes not in named for head in heads):
            yield "a cell with a head that there is not"


def _annotations(reader: Any) -> Iterator[Any]:
    for page in reader.pages:
        for each in page.get("/Annots", []):
            yield each.get_object()


def _links(reader: Any, elements: dict[int, Any]) -> Iterator[str]:
    tagged = {
        kid.get_object().raw_get("/Obj").idnum
        for one in elements.values()
        for kid in _listed(one["/K"])
        if _points(kid) and kid.get_object().get("/Type") == "/OBJR"
    }
    for page in reader.pages:
        for each in page.get("/Annots", []):
            if each.idnum not in tagged:
                yield "a link without a tag"
            note = each.get_object()
            words = str(note.get("/Contents", ""))
            if not words.strip():
                yield "a link that is not described"
            if words in (note.get("/Dest"), note.get("/A", {}).get("/URI")):
                yield f"a link described by its address, {words}"


def _pictures(reader: Any, elements: dict[int, Any]) -> Iterator[str]:
    for element in elements.values():
        if element["/S"] != "/Figure":
            continue
        if not str(element.get("/Alt", "")).strip():
            yield "a picture without words"
        left, low, right, high = map(float, element["/A"]["/BBox"])
        _, _, wide, tall = map(float, element["/Pg"].get_object()["/MediaBox"])
        if not (0 <= left < right <= wide and 0 <= low < high <= tall):
            yield f"a picture said to lie outside its page: {left, low, right, high}"


def _headings(tree: Any) -> Iterator[str]:
    """A heading is at most one deeper than that before it, and the first is the highest (ISO 14289-1, 7.4.2)."""
    last = 0
    for _, element in _elements(tree["/K"]):
        if found := re.fullmatch(r"/H([1-6])", element["/S"]):
            level = int(found[1])
            if level > last + 1:
                yield f"a heading of level {level} after one of level {last}"
            last = level
