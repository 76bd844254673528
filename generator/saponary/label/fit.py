"""Text fitted to a label: measured by the fonts' own metrics, broken into lines, shrunk to fit.

Smallest type: the height of a small letter, for the list of ingredients and all beside it.
US: 21 CFR 701.3(b) and (p), 1/16 inch, or 1/32 inch where the label is under 12 square inches
(from memory); net weight by the area of the panel, 701.13(i) (from memory). EU: no size is laid
down for cosmetics; 1.2 mm is this book's own rule.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from io import BytesIO
from typing import Any

from saponary.assets.fonts import font_files
from saponary.quantity.dataclass import dataclass
from saponary.quantity.rounding import show

INCH = 25.4
POINT = INCH / 72.0
REGULAR, BOLD = "SourceSansPro-Regular.ttf", "SourceSansPro-Semibold.ttf"
NAME = "SourceSerifPro-Regular.ttf"
LEADING = 1.18
"""Height of a line, by the size of its type."""

GAP = 0.7
"""Between the head and the list, and between the list and the foot, in mm."""

_OWN_SMALLEST = 1.2
_QUARTER_POINTS = 4
_LARGEST = 10 * _QUARTER_POINTS
_NET_BY_AREA = ((5.0, 1 / 16), (25.0, 1 / 8), (100.0, 3 / 16), (400.0, 1 / 4))
_NET_BEYOND = 1 / 2
_TITLE = 1.7
_SAFE = 1.01
"""Room kept for what the measuring does not see, such as kerning."""


@dataclass(frozen=True)
class Face:
    """A font's advances and the height of its small letters, in parts of its size."""

    advances: Mapping[int, float]
    missing: float
    x_height: float

    def width(self, text: str) -> float:
        return sum(self.advances.get(ord(char), self.missing) for char in text)


@cache
def face(name: str) -> Face:
    """Read from the font file itself."""
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    font: Any = TTFont(BytesIO(font_files()[name]), lazy=True)
    em, metrics = font["head"].unitsPerEm, font["hmtx"]
    advances = {code: metrics[glyph][0] / em for code, glyph in font.getBestCmap().items()}
    return Face(advances, metrics[".notdef"][0] / em, font["OS/2"].sxHeight / em)


@dataclass(frozen=True)
class LabelText:
    """What a label says, each a run of text."""

    name: str
    kind: str
    ingredients: str
    caution: str
    net_weight: str
    lot: str
    maker: str
    before: str = ""
    facts: str = ""
    names_lot: bool = False
    """Whether `lot` names one, so that nothing is left to write in."""


@dataclass(frozen=True)
class Beside:
    """What stands beside the text, for which room is kept free: a mark before the name, as wide as so many times
    its height; a picture at the right of the head, as wide in mm; a square at the right of the foot, in mm.
    """

    mark: float = 0.0
    picture: float = 0.0
    square: float = 0.0


NOTHING = Beside()
APART = 2.0
"""Between the text and what stands beside it, in mm."""
_MARK_APART = 0.35
"""Between the mark and the name, in parts of the name's size."""
LOWEST_PICTURE = 5.0
"""A picture less high, in mm, shows nothing."""


@dataclass(frozen=True)
class Fitted:
    """Every run broken into lines, and the sizes of type in points."""

    name: tuple[str, ...]
    kind: tuple[str, ...]
    ingredients: tuple[str, ...]
    caution: tuple[str, ...]
    net_weight: tuple[str, ...]
    lot: tuple[str, ...]
    maker: tuple[str, ...]
    before: tuple[str, ...]
    facts: tuple[str, ...]
    size: float
    name_size: float
    net_size: float
    padding: float

    @property
    def head(self) -> float:
        """The height of the name and the kind, in mm."""
        points = self.name_size * len(self.name) + self.size * len(self.kind)
        return points * POINT * LEADING

    @property
    def foot(self) -> float:
        """The height of all that stands below the list, in mm."""
        runs = (self.caution, self.lot, self.maker, self.before, self.facts)
        points = self.net_size * len(self.net_weight) + self.size * sum(len(run) for run in runs)
        return points * POINT * LEADING


@dataclass(frozen=True)
class Misfit:
    """Why the text does not fit, in words."""

    why: str


def smallest(width: float, height: float, law: str) -> float:
    """Smallest height of a small letter in mm, for a label of so many mm."""
    if law == "us":
        return INCH / 32 if width * height < 12 * INCH * INCH else INCH / 16
    return _OWN_SMALLEST


def smallest_net(width: float, height: float, law: str) -> float:
    """The same for the net weight."""
    if law != "us":
        return smallest(width, height, law)
    area = width * height / INCH / INCH
    return INCH * next((size for most, size in _NET_BY_AREA if area <= most), _NET_BEYOND)


def fit(words: LabelText, width: float, height: float, law: str, beside: Beside = NOTHING) -> Fitted | Misfit:
    """The largest type at which everything fits, or why even the smallest does not."""
    padding = min(2.5, 0.07 * min(width, height))
    room_x, room_y = width - 2 * padding, height - 2 * padding
    least = _quarters(smallest(width, height, law) / face(REGULAR).x_height)
    net = _quarters(smallest_net(width, height, law) / face(BOLD).x_height)

    def at(quarters: int) -> Fitted | Misfit:
        size, net_size = quarters / _QUARTER_POINTS, max(quarters, net) / _QUARTER_POINTS
        return _set(words, size, net_size, room_x, padding, beside)

    for quarters in range(max(_LARGEST, least), least, -1):
        made = at(quarters)
        if isinstance(made, Fitted) and _height(made, beside) <= room_y:
            return made
    made = at(least)
    if isinstance(made, Misfit) or _height(made, beside) <= room_y:
        return made
    return Misfit(
        f"at the smallest type allowed, {show(least / _QUARTER_POINTS, 2)} pt, its text is "
        f"{show(_height(made, beside), 1)} mm high and the label has room for {show(room_y, 1)} mm"
    )


def _quarters(millimetres: float) -> int:
    """The next quarter of a point that is no smaller."""
    return -int(-millimetres / POINT * _QUARTER_POINTS // 1)


def _set(
    words: LabelText, size: float, net_size: float, room: float, padding: float, beside: Beside
) -> Fitted | Misfit:
    name_size = max(size * _TITLE, net_size)
    runs = {
        "name": (words.name, NAME, name_size),
        "kind": (words.kind, REGULAR, size),
        "ingredients": (words.ingredients, REGULAR, size),
        "caution": (words.caution, REGULAR, size),
        "net_weight": (words.net_weight, BOLD, net_size),
        "lot": (words.lot, REGULAR, size),
        "maker": (words.maker, REGULAR, size),
        "before": (words.before, REGULAR, size),
        "facts": (words.facts, REGULAR, size),
    }
    broken: dict[str, tuple[str, ...]] = {}
    rooms = _rooms(room, beside, name_size)
    for run, (text, font, points) in runs.items():
        room = rooms.get(run, rooms["foot"])
        lines = tuple(_lines(text, font, points * POINT, room))
        wide = max(lines, key=face(font).width, default="")
        if face(font).width(wide) * points * POINT * _SAFE > room:
            return Misfit(f"{wide!r} is wider than the label")
        broken[run] = lines
    return Fitted(size=size, name_size=name_size, net_size=net_size, padding=padding, **broken)


def _rooms(room: float, beside: Beside, name_size: float) -> dict[str, float]:
    """How wide the lines of each run may be, in mm; those that are not named stand in the foot."""
    head = room - (beside.picture + APART if beside.picture else 0.0)
    mark = name_size * POINT * (beside.mark + _MARK_APART) if beside.mark else 0.0
    foot = room - (beside.square + APART if beside.square else 0.0)
    return {"name": head - mark, "kind": head, "ingredients": room, "foot": foot}


def _lines(text: str, font: str, size: float, room: float) -> Iterator[str]:
    """Broken between words; a word too long for a line stands alone on one."""
    line, long, space = "", 0.0, _wide(font, " ")
    for word in text.split():
        longer = long + space + _wide(font, word) if line else _wide(font, word)
        if line and longer * size * _SAFE > room:
            yield line
            line, long = word, _wide(font, word)
        else:
            line, long = f"{line} {word}" if line else word, longer
    if line:
        yield line


@lru_cache(maxsize=8192)
def _wide(font: str, word: str) -> float:
    return face(font).width(word)


def _height(made: Fitted, beside: Beside) -> float:
    """Of all lines and of the gaps between the head, the list and the foot, in mm."""
    head = max(made.head, LOWEST_PICTURE) if beside.picture else made.head
    the_list = made.size * len(made.ingredients) * POINT * LEADING
    return head + the_list + max(made.foot, beside.square) + 2 * GAP
