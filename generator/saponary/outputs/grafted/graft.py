"""Joins fragments to one file: pages, tags, parent tree, IDs, names, outline; fonts and metadata of the host."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from io import BytesIO
from typing import Any, NamedTuple

import pydyf

from saponary.outputs.grafted.folio import stamp
from saponary.outputs.grafted.fragment import (
    ABOVE,
    FONTS,
    KEYS,
    PAGES,
    STAMP,
    Fragment,
    Piece,
    SetPage,
    Target,
)
from saponary.outputs.grafted.host import Host
from saponary.outputs.grafted.outline import Line, add_outline


class Raw(pydyf.Object):  # type: ignore[misc]
    """An object whose bytes are there already."""

    def __init__(self, data: bytes, stream: bool) -> None:
        super().__init__()
        self._data, self._stream = data, stream

    @property
    def data(self) -> bytes:
        return self._data

    @property
    def compressible(self) -> bool:
        return not self._stream


class Bound(NamedTuple):
    """A part as it is bound in: on which page of the file it begins, and in which chapter."""

    fragment: Fragment
    first: int
    within: str = ""


def joined(host: Host, parts: Sequence[Bound]) -> bytes:
    """The file. Parts are in the order of their pages; pages that none of them fills are blank."""
    book = _Book(host)
    for part in parts:
        book.bind(part)
    return book.written()


class _Book:
    """The file as far as it is bound."""

    def __init__(self, host: Host) -> None:
        self._pdf: Any = pydyf.PDF()
        self._folios = host.folios
        base = len(self._pdf.objects)
        self._add(host.objects, {})
        self._fonts = _reference(base + host.fonts)
        self._carried = None if host.carried is None else _reference(base + host.carried)
        self._pdf.catalog.update(host.catalogue)
        self._pdf.catalog["Metadata"] = _reference(base + host.metadata)
        self._pdf.info.update(host.info)
        self._root: Any = pydyf.Dictionary({"Type": "/StructTreeRoot"})
        self._pdf.add_object(self._root)
        self._top = self._element("/Document", self._root.reference)
        self._chapter = ("", self._top)
        self._pages: list[int] = []
        self._parents: list[bytes] = []
        self._ids: dict[str, bytes] = {}
        self._names: dict[str, bytes] = {}
        self._lines: list[Line] = []

    def bind(self, part: Bound) -> None:
        fragment = part.fragment
        while len(self._pages) < part.first - 1:
            self._pages.append(self._blank(fragment.pages[0]))
        above = self._above(part.within)
        stamps = [self._stamp(page, part.first + at) for at, page in enumerate(fragment.pages)]
        base, keys = len(self._pdf.objects), len(self._parents)
        fixed = {
            FONTS: self._fonts,
            PAGES: self._pdf.pages.reference,
            ABOVE: above.reference,
            STAMP: b"",
            **{KEYS - key: str(keys + key).encode() for key in range(len(fragment.parents))},
        }
        by_page = {page.at: one for page, one in zip(fragment.pages, stamps, strict=True)}
        self._add(fragment.objects, fixed, by_page)
        self._pages += [base + page.at for page in fragment.pages]
        above["K"].extend(_reference(base + kid) for kid in fragment.kids)
        self._parents += [_filled(one, base, fixed) for one in fragment.parents]
        self._ids |= {name: _reference(base + at) for name, at in fragment.ids.items()}
        for name, target in fragment.anchors.items():
            self._names.setdefault(name, self._place(fragment, base, target))
        for mark in fragment.marks:
            self._lines.append(Line(mark.level, mark.title, self._place(fragment, base, mark.target)))

    def written(self) -> bytes:
        """The file's bytes; its identifier is a digest of them."""
        pdf = self._pdf
        for number in self._pages:
            pdf.pages["Kids"].extend([number, 0, "R"])
        pdf.pages["Count"] = len(self._pages)
        add_outline(pdf, self._lines)
        self._root["K"] = pydyf.Array([self._top.reference])
        nums = b" ".join(b"%d %s" % pair for pair in enumerate(self._parents))
        self._root["ParentTree"] = self._raw(b"<</Nums [%s]>>" % nums)
        if self._ids:
            self._root["IDTree"] = self._raw(b"<</Names [%s]>>" % _by_name(self._ids))
        names = pydyf.Dictionary({"Dests": self._raw(b"<</Names [%s]>>" % _by_name(self._names))})
        if self._carried is not None:
            names["EmbeddedFiles"] = self._carried
        pdf.catalog["Names"] = names
        pdf.catalog["StructTreeRoot"] = self._root.reference
        whole = hashlib.md5(usedforsecurity=False)
        for one in pdf.objects[1:]:
            whole.update(one.data)
        output = BytesIO()
        pdf.write(output, b"1.7", whole.hexdigest().encode(), compress=True)
        return output.getvalue()

    def _add(
        self, pieces: Sequence[Piece], fixed: Mapping[int, bytes], stamps: Mapping[int, bytes] | None = None
    ) -> None:
        base = len(self._pdf.objects)
        for at, piece in enumerate(pieces):
            places = fixed if not stamps or at not in stamps else {**fixed, STAMP: stamps[at]}
            self._pdf.add_object(Raw(_filled(piece, base, places), piece.stream))

    def _raw(self, data: bytes) -> bytes:
        made: Any = Raw(data, stream=False)
        self._pdf.add_object(made)
        return _reference(made.number)

    def _element(self, kind: str, above: bytes) -> Any:
        made: Any = pydyf.Dictionary({"Type": "/StructElem", "S": kind, "P": above, "K": pydyf.Array()})
        self._pdf.add_object(made)
        return made

    def _above(self, chapter: str) -> Any:
        """The element that a part lies in: the chapter's, or that of the whole."""
        if chapter != self._chapter[0]:
            element = self._top
            if chapter:
                element = self._element("/Sect", self._top.reference)
                self._top["K"].append(element.reference)
            self._chapter = chapter, element
        return self._chapter[1]

    def _stamp(self, page: SetPage, number: int) -> bytes:
        """What names the stamp of a page, which is added; nothing where it is not numbered."""
        folio = self._folios.get(number % 2 == 0)
        if folio is None or folio.box not in page.margin:
            return b""
        made = stamp(folio, number, page.height)
        self._pdf.add_object(made)
        return _reference(made.number) + b" "

    def _blank(self, like: SetPage) -> int:
        box = pydyf.Array([0, 0, like.width, like.height])
        nothing: Any = pydyf.Stream([b""])
        self._pdf.add_object(nothing)
        page: Any = pydyf.Dictionary(
            {
                "Type": "/Page",
                "Parent": self._pdf.pages.reference,
                "MediaBox": box,
                "Contents": nothing.reference,
                "Resources": pydyf.Dictionary(),
                "Tabs": "/S",
                "StructParents": len(self._parents),
                "TrimBox": box,
                "BleedBox": box,
            }
        )
        self._parents.append(b"[]")
        self._pdf.add_object(page)
        return len(self._pdf.objects) - 1

    def _place(self, fragment: Fragment, base: int, target: Target) -> bytes:
        page = _reference(base + fragment.pages[target.page].at)
        return bytes(pydyf.Array([page, "/XYZ", target.x, target.y, 0]).data)


def _reference(number: int) -> bytes:
    return b"%d 0 R" % number


def _filled(piece: Piece, base: int, fixed: Mapping[int, bytes]) -> bytes:
    """A piece with its holes filled; objects of the same fragment are numbered from `base`."""
    if not piece.holes:
        return piece.data
    parts, last = list[bytes](), 0
    for place, what in piece.holes:
        parts += (piece.data[last:place], fixed[what] if what < 0 else _reference(base + what))
        last = place
    return b"".join((*parts, piece.data[last:]))


def _by_name(found: Mapping[str, bytes]) -> bytes:
    """Entries of a name tree, in the order of their bytes (ISO 32000-1, 7.9.6)."""
    named = sorted((pydyf.String(name).data, value) for name, value in found.items())
    return b" ".join(b"%s %s" % pair for pair in named)
