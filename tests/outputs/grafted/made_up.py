"""Parts of a book that were never set: what the tests of binding and keeping share."""

from __future__ import annotations

from saponary.outputs.grafted.fragment import (
    ABOVE,
    FONTS,
    KEYS,
    PAGES,
    STAMP,
    Face,
    Fragment,
    Mark,
    Piece,
    SetPage,
    Target,
)
from saponary.outputs.grafted.host import Host


def cut(text: str, *names: int, stream: bool = False) -> Piece:
    """A piece of text in which `@` stands for each hole."""
    parts = text.split("@")
    assert len(parts) == len(names) + 1
    holes, place = list[tuple[int, int]](), 0
    for part, name in zip(parts, names, strict=False):
        place += len(part)
        holes.append((place, name))
    return Piece("".join(parts).encode(), tuple(holes), stream)


def content(text: str) -> Piece:
    return cut(f"<</Length {len(text)}>>\nstream\n{text}\nendstream", stream=True)


RESOURCES = "/Resources <</Font @>>"


def fragment(name: str, pages: int = 1) -> Fragment:
    """Pages with a paragraph each, on the first a link to the name `next`; a head of a table on it."""
    objects, kids, parents, set_pages = list[Piece](), list[int](), list[Piece](), list[SetPage]()
    for page in range(pages):
        at = len(objects)
        objects += [
            cut(
                f"<</Type /Page/Parent @/MediaBox [0 0 200 300]/Contents [@@]{RESOURCES}/Tabs /S/StructParents @"
                "/Annots [@]>>",
                PAGES,
                STAMP,
                at + 1,
                FONTS,
                KEYS - 2 * page,
                at + 3,
            ),
            content(f"/P <</MCID 0>> BDC ({name} {page}) Tj EMC"),
            cut(
                f"<</Type /StructElem/S /P/P @/Pg @/K [0 @]/ID ({name}-{page})>>",
                ABOVE,
                at,
                at + 4,
            ),
            cut(
                "<</Type /Annot/Subtype /Link/Rect [0 0 1 1]/Dest (next)/Contents (goes on)/StructParent @>>",
                KEYS - 2 * page - 1,
            ),
            cut("<</Type /OBJR/Obj @/Pg @>>", at + 3, at),
        ]
        kids.append(at + 2)
        parents += [cut("[@]", at + 2), cut("@", at + 2)]
        set_pages.append(SetPage(at, 200.0, 300.0, ("top-left", "top-right")))
    return Fragment(
        objects=tuple(objects),
        pages=tuple(set_pages),
        kids=tuple(kids),
        parents=tuple(parents),
        ids={f"{name}-{page}": 5 * page + 2 for page in range(pages)},
        anchors={name: Target(0, 10.0, 290.0), f"{name}-end": Target(pages - 1, 10.0, 20.0)},
        marks=(
            Mark(1, f"All of {name}", Target(0, 10.0, 290.0)),
            Mark(2, "Its end", Target(pages - 1, 10.0, 20.0)),
        ),
        faces=(Face("ABCDEF", "Some Face", 400, slanted=False, texts={3: "a"}, widths={3: 500}, lacking={}),),
    )


HOST = Host(
    objects=(
        cut("<</ABCDEF @>>", 1),
        cut("<</Type /Font/Subtype /Type1/BaseFont /Helvetica>>"),
        cut("<</Type /Metadata/Subtype /XML/Length 3>>\nstream\n<x>\nendstream", stream=True),
    ),
    fonts=0,
    metadata=2,
    carried=None,
    catalogue={"Lang": "(en)"},
    info={"Title": "(A book)"},
    folios={},
)
