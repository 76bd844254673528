"""All that is relied on of how WeasyPrint and pydyf hold a document, beyond what they document.

Each function names one such thing. Where a version holds it in another way, `Moved` says which it was, and
`tests/outputs/grafted/test_internals.py` fails at its name.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import contextmanager
from typing import Any

from saponary.outputs.grafted.fragment import Face, Mark, Target

POINTS = 0.75
"""PDF points in a pixel of CSS."""
_REFERENCE = re.compile(rb"\d+ 0 R")


class Moved(Exception):
    """WeasyPrint or pydyf hold something in another way than they did."""

    def __init__(self, what: str) -> None:
        super().__init__(f"this version of WeasyPrint or pydyf no longer has {what}")


@contextmanager
def relying_on(what: str) -> Generator[None, None, None]:
    """Raise Moved where what is relied on is not there."""
    try:
        yield
    except (AttributeError, KeyError, IndexError, TypeError, ValueError, AssertionError) as error:
        raise Moved(what) from error


def generated(document: Any, options: dict[str, Any], look: Callable[[Any], None]) -> None:
    """Have a document's PDF generated and looked at, and not written."""

    def finisher(_: Any, pdf: Any) -> None:
        look(pdf)
        with relying_on("the list `objects` of a pydyf.PDF"):
            del pdf.objects[1:]

    document.write_pdf(finisher=finisher, **options)


def reference(value: Any) -> int | None:
    """The number of the object that a value names, where it names one."""
    found = isinstance(value, bytes) and _REFERENCE.fullmatch(value)
    return int(value.split()[0]) if found else None


def numbered(value: Any) -> int:
    with relying_on("references written as b'12 0 R'"):
        found = reference(value)
        assert found is not None
        return found


def is_dictionary(value: Any) -> bool:
    return isinstance(value, dict)


def objects(pdf: Any) -> list[Any]:
    with relying_on("the list `objects` of a pydyf.PDF, each at its number"):
        found: list[Any] = pdf.objects
        assert all(one.number == at for at, one in enumerate(found))
        return found


def page_numbers(pdf: Any) -> list[int]:
    with relying_on("pages of a pydyf.PDF as `pages['Kids']`, three entries each"):
        kids = list(pdf.pages["Kids"])
        assert kids and kids[2::3] == ["R"] * (len(kids) // 3)
        return [int(number) for number in kids[::3]]


def pages_root(pdf: Any) -> int:
    with relying_on("`pages` of a pydyf.PDF as an object"):
        return int(pdf.pages.number)


def fonts_number(pdf: Any) -> int:
    with relying_on("one dictionary of fonts for all pages, as `Font` of their resources"):
        page = pdf.objects[page_numbers(pdf)[0]]
        return numbered(pdf.objects[numbered(page["Resources"])]["Font"])


def document_element(pdf: Any) -> Any:
    with relying_on("a structure tree with one Document at its top"):
        root = pdf.objects[numbered(pdf.catalog["StructTreeRoot"])]
        (only,) = root["K"]
        found = pdf.objects[numbered(only)]
        assert found["S"] == "/Document"
        return found


def parent_tree(pdf: Any) -> list[Any]:
    """Its values by their keys, which run from nought."""
    with relying_on("a parent tree as one array `Nums`, with keys from nought"):
        root = pdf.objects[numbered(pdf.catalog["StructTreeRoot"])]
        nums = list(pdf.objects[numbered(root["ParentTree"])]["Nums"])
        assert nums[::2] == list(range(len(nums) // 2))
        return nums[1::2]


def destinations(pdf: Any) -> dict[str, Any]:
    """The array of each named destination."""
    with relying_on("named destinations as one array `Names` in the catalogue"):
        if "Names" not in pdf.catalog or "Dests" not in pdf.catalog["Names"]:
            return {}
        names = list(pdf.catalog["Names"]["Dests"]["Names"])
        found = {name.string: place for name, place in zip(names[::2], names[1::2], strict=True)}
        assert all(len(place) == 5 and place[1] == "/XYZ" for place in found.values())
        return found


def links(pdf: Any) -> Iterator[Any]:
    """The annotations of links."""
    with relying_on("links as dictionaries with `Subtype`, and `Dest` or `A` with `URI`, as pydyf.String"):
        for one in pdf.objects:
            if is_dictionary(one) and one.get("Subtype") == "/Link":
                assert isinstance((one["Dest"] if "Dest" in one else one["A"]["URI"]).string, str)
                yield one


def marks(document: Any) -> list[Mark]:
    """The bookmarks of every page, in their order."""
    with relying_on("`bookmarks` of a page: level, label, (x, y), state"):
        found: list[Mark] = []
        for at, page in enumerate(document.pages):
            for level, label, (x, y), _ in page.bookmarks:
                place = Target(at, x * POINTS, (page.height - y) * POINTS)
                found.append(Mark(int(level), str(label), place))
        return found


def margin_boxes(page: Any) -> dict[str, str]:
    """The text of each box in the margin of a page, by its name in the style sheet, without its `@`."""
    with relying_on("margin boxes as children of `_page_box` with `at_keyword`"):
        found: dict[str, str] = {}
        for box in page._page_box.children:
            keyword = getattr(box, "at_keyword", None)
            if keyword is not None:
                assert keyword.startswith("@")
                found[keyword[1:]] = "".join(_texts(box))
        return found


def _texts(box: Any) -> Iterator[str]:
    if hasattr(box, "text"):
        yield box.text
    for child in getattr(box, "children", ()):
        yield from _texts(child)


def fonts(document: Any) -> dict[str, Any]:
    """The fonts that were used in generating a document's PDF, by their names in content streams."""
    with relying_on("`fonts` of a document, each with a `hash` that is its name"):
        return {font.hash: font for font in document.fonts.values()}


def faces(document: Any) -> list[Face]:
    with relying_on("`to_unicode`, `widths`, `missing`, `family`, `weight` and `style` of a font"):
        return [
            Face(
                name=name,
                family=font.family,
                weight=int(font.weight),
                slanted=bool(font.style),
                texts=dict(font.to_unicode),
                widths=dict(font.widths),
                lacking=dict(font.missing),
            )
            for name, font in fonts(document).items()
        ]


def widen(font: Any, faces: Iterable[Face]) -> None:
    """Let a font hold the glyphs of others that are the same font; of two that disagree, the first says."""
    with relying_on("glyph maps of a font that are read when it is embedded"):
        for face in faces:
            for ours, theirs in (
                (font.to_unicode, face.texts),
                (font.widths, face.widths),
                (font.missing, face.lacking),
            ):
                for key, value in theirs.items():
                    ours.setdefault(key, value)
        font.to_unicode = dict(sorted(font.to_unicode.items()))
        font.widths = dict(sorted(font.widths.items()))


def lines_of(stream: Any) -> list[bytes]:
    """What a page's content stream says, item by item."""
    with relying_on("`stream` of a pydyf.Stream as a list"):
        return [item if isinstance(item, bytes) else _data(item) for item in stream.stream]


def _data(item: Any) -> bytes:
    return item.encode() if isinstance(item, str) else bytes(item.data)
