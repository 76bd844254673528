"""Whether objects of a PDF only show pages and link from them.

Objects are taken apart as pydyf writes them: no comments, strings with every bracket escaped, nothing of the
file's own frame. Every name in them must be one that WeasyPrint writes for pages, their pictures, links and
tags; so none of them can start a program, run a script, fetch a file or carry one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from saponary.outputs.grafted.fragment import Piece

_TOKENS = re.compile(
    rb"(?>\s++|<<|>>|[\[\]]|\((?>[^()\\]|\\.)*+\)|<[0-9a-f]*+>|/[A-Za-z0-9_.-]++|[-+]?[0-9.]++|true|false|null)*+",
    re.DOTALL,
)
_STRINGS = re.compile(rb"\((?>[^()\\]|\\.)*+\)", re.DOTALL)
_NAME = re.compile(rb"/([A-Za-z0-9_.-]++)")
_STREAM = re.compile(rb"(<<.*?/Length ([0-9]++)>>)\nstream\n", re.DOTALL)
_OF_RESOURCES = re.compile(r"[aA][0-9.]+|[sxp][0-9]+|i[0-9A-Za-z]+|lab-d(?:50|65)")
"""How WeasyPrint names transparency, groups, patterns, shadings and pictures."""

_OBJECTS = """Type Page Parent MediaBox TrimBox BleedBox Contents Resources Tabs S StructParents StructParent Annots
Annot Subtype Link Rect BS W Dest XYZ A Action URI Length Length1 Filter FlateDecode"""
_PICTURES = """ExtGState XObject Pattern Shading ColorSpace Font ca CA SMask Mask G Luminosity Alpha AIS BM Normal
Multiply Screen Overlay Darken Lighten ColorDodge ColorBurn HardLight SoftLight Difference Exclusion Hue Saturation
Color Form BBox Group Transparency I CS DeviceRGB DeviceGray DeviceCMYK Lab WhitePoint Range PatternType XStep
YStep TilingType PaintType Matrix ShadingType Domain Coords Function Functions Bounds Encode FunctionType C0 C1 N
Extend Image Width Height BitsPerComponent Decode DecodeParms DCTDecode JPXDecode ASCII85Decode Predictor Colors
Columns Interpolate Intent ImageMask"""
_TAGS = """StructElem K P Pg Alt O Layout Table ColSpan RowSpan Headers Scope Row Column Both ID OBJR Obj NonStruct Div
Span Part Art Sect BlockQuote H1 H2 H3 H4 H5 H6 L LI LBody Lbl TR TH TD THead TBody TFoot Figure Caption Lang"""
_NAMES = frozenset(f"{_OBJECTS} {_PICTURES} {_TAGS}".split())


def only_shows(pieces: Sequence[Piece]) -> bool:
    """Whether pieces are sound, and do no more than show and link."""
    words = [_words(piece) for piece in pieces]
    if None in words:
        return False
    text = b"\n".join(said for said in words if said is not None)
    if _TOKENS.fullmatch(text) is None:
        return False
    found = {name.decode() for name in _NAME.findall(_STRINGS.sub(b"()", text))}
    return all(name in _NAMES or _OF_RESOURCES.fullmatch(name) for name in found)


def _words(piece: Piece) -> bytes | None:
    """A piece without the content of its stream, with a number where it has holes; None where that is other than it says."""
    data = piece.data
    if piece.stream:
        found = _STREAM.match(data)
        if found is None or data[found.end() + int(found[2]) :] != b"\nendstream":
            return None
        data = found[1]
    parts, last = list[bytes](), 0
    for place, _ in piece.holes:
        parts.append(data[last:place])
        last = place
    return b" 0 ".join((*parts, data[last:]))
