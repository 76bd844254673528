"""Text fitted to a label: broken into lines, and set as large as it fits.

From the top: the name and the kind; a rule; the list of ingredients and the warnings; at the foot the net weight
with the lot, the dates, and who answers for it.

Smallest type: the height of a small letter. US: 21 CFR 701.3(b), 1/16 inch for the list of ingredients; 701.3(p)
allows 1/32 inch where the whole surface of the package that can bear a label is under 12 square inches, which a
label's own size does not tell, so that it is not used here (both from memory). Net weight by the area of the panel,
701.13(i), and near its bottom, 701.13(f) (from memory); the label is taken for the panel. EU: no size is laid down
for cosmetics; 1.2 mm is this book's own rule.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

from saponary.label.measure import BOLD, INCH, NAME, POINT, REGULAR, face, lines, wide
from saponary.quantity.rounding import show

LEADING = 1.18
"""Height of a line, by the size of its type."""

RULED, RULE = 1.4, 0.25
"""Between the head and the list, in mm, and the rule that stands in the middle of it."""
GAP = 0.8
"""Between the list and the foot, in mm."""

_OWN_SMALLEST = 1.2
_QUARTER_POINTS = 4
_LARGEST = 9 * _QUARTER_POINTS
_NET_BY_AREA = ((5.0, 1 / 16), (25.0, 1 / 8), (100.0, 3 / 16), (400.0, 1 / 4))
_NET_BEYOND = 1 / 2
_TITLE = 1.7
_TITLES = (2.4, 2.2, 2.0, 1.85, _TITLE, 1.5, 1.3)
"""How large the name is by the size of the list: as large as it can be on the fewest lines."""
BLANK = 16.0
"""A line to write a lot on, in mm, where it shares one with the net weight."""


@dataclass(frozen=True)
class LabelText:
    """What a label says, each a run of text; an empty one is left out."""

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


class Beside(NamedTuple):
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
_LOWEST_PICTURE, _HIGHEST_PICTURE = 5.0, 16.2
"""A picture less high, in mm, shows nothing; one higher leaves nothing to the rest."""


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
    lot_beside: bool
    """Whether the lot stands on the line of the net weight."""
    head: float
    """How high the head is, in mm: the name and the kind, or the picture beside them."""
    foot: float
    """How high all is that stands below the list, in mm."""

    @property
    def high(self) -> float:
        """All of it, in mm."""
        listed = self.size * (len(self.ingredients) + len(self.caution)) * POINT * LEADING
        return self.head + (RULED if self.head else 0.0) + listed + (GAP + self.foot if self.foot else 0.0)


class Misfit(NamedTuple):
    """Why the text does not fit, in words."""

    why: str


def smallest(law: str) -> float:
    """Smallest height of a small letter in mm."""
    return INCH / 16 if law == "us" else _OWN_SMALLEST


def smallest_net(width: float, height: float, law: str) -> float:
    """The same for the net weight, on a label of so many mm."""
    if law != "us":
        return smallest(law)
    area = width * height / INCH / INCH
    return INCH * next((size for most, size in _NET_BY_AREA if area <= most), _NET_BEYOND)


def fit(words: LabelText, width: float, height: float, law: str, beside: Beside = NOTHING) -> Fitted | Misfit:
    """The largest type at which everything fits, or why even the smallest does not; then the largest name, and
    the highest picture.
    """
    padding = min(2.5, 0.07 * min(width, height))
    room_x, room_y = width - 2 * padding, height - 2 * padding
    least = _quarters(smallest(law) / face(REGULAR).x_height)
    net = _quarters(smallest_net(width, height, law) / face(BOLD).x_height) if words.net_weight else 0

    def at(quarters: int, title: float = _TITLE) -> Fitted | Misfit:
        size, net_size = quarters / _QUARTER_POINTS, max(quarters, net) / _QUARTER_POINTS
        return _set(words, size, net_size, title, room_x, padding, beside)

    for quarters in range(max(_LARGEST, least), least - 1, -1):
        made = at(quarters)
        if isinstance(made, Fitted) and made.high <= room_y:
            named = (at(quarters, title) for title in _TITLES)
            fitting = (one for one in named if isinstance(one, Fitted) and one.high <= room_y)
            best = min(fitting, key=lambda one: (len(one.name), -one.name_size))
            return _with_higher_picture(best, room_y, beside)
    made = at(least)
    if isinstance(made, Misfit):
        return made
    return Misfit(
        f"at the smallest type allowed, {show(least / _QUARTER_POINTS, 2)} pt, its text is "
        f"{show(made.high, 1)} mm high and the label has room for {show(room_y, 1)} mm"
    )


def _with_higher_picture(made: Fitted, room: float, beside: Beside) -> Fitted:
    """What room is left goes to the picture, as far as it is to be."""
    if not beside.picture:
        return made
    return replace(made, head=max(made.head, min(_HIGHEST_PICTURE, made.head + room - made.high)))


def _quarters(millimetres: float) -> int:
    """The next quarter of a point that is no smaller."""
    return -int(-millimetres / POINT * _QUARTER_POINTS // 1)


def _set(
    words: LabelText,
    size: float,
    net_size: float,
    title: float,
    room: float,
    padding: float,
    beside: Beside,
) -> Fitted | Misfit:
    name_size = size * title
    runs = {
        "name": (words.name, NAME, name_size),
        "kind": (words.kind, REGULAR, size),
        "ingredients": (words.ingredients, REGULAR, size),
        "caution": (words.caution, BOLD, size),
        "net_weight": (words.net_weight, BOLD, net_size),
        "lot": (words.lot, REGULAR, size),
        "maker": (words.maker, REGULAR, size),
        "before": (words.before, REGULAR, size),
        "facts": (words.facts, REGULAR, size),
    }
    broken: dict[str, tuple[str, ...]] = {}
    rooms = _rooms(room, beside, name_size)
    for run, (text, font, points) in runs.items():
        across = rooms.get(run, rooms["foot"])
        found = tuple(lines(text, font, points * POINT, across))
        widest = max(found, key=face(font).width, default="")
        if wide(widest, font, points * POINT) > across:
            return Misfit(f"{widest!r} is wider than the label")
        broken[run] = found
    beside_net = _fits_beside(words, broken, size, net_size, rooms["foot"])
    return Fitted(
        size=size,
        name_size=name_size,
        net_size=net_size,
        padding=padding,
        lot_beside=beside_net,
        head=_head(broken, name_size, size, beside),
        foot=max(_foot(broken, net_size, size, beside_net), beside.square),
        **broken,
    )


def _fits_beside(
    words: LabelText, broken: dict[str, tuple[str, ...]], size: float, net_size: float, room: float
) -> bool:
    """Whether the lot has room on the line of the net weight."""
    if len(broken["net_weight"]) != 1 or len(broken["lot"]) != 1:
        return False
    blank = 0.0 if words.names_lot else BLANK
    net = wide(words.net_weight, BOLD, net_size * POINT)
    return net + APART + wide(words.lot, REGULAR, size * POINT) + blank <= room


def _head(broken: dict[str, tuple[str, ...]], name_size: float, size: float, beside: Beside) -> float:
    points = name_size * len(broken["name"]) + size * len(broken["kind"])
    return max(points * POINT * LEADING, _LOWEST_PICTURE if beside.picture else 0.0)


def _foot(broken: dict[str, tuple[str, ...]], net_size: float, size: float, lot_beside: bool) -> float:
    runs = ("maker", "before", "facts") if lot_beside else ("lot", "maker", "before", "facts")
    points = net_size * len(broken["net_weight"]) + size * sum(len(broken[run]) for run in runs)
    return points * POINT * LEADING


def _rooms(room: float, beside: Beside, name_size: float) -> dict[str, float]:
    """How wide the lines of each run may be, in mm; those that are not named stand in the foot."""
    head = room - (beside.picture + APART if beside.picture else 0.0)
    mark = name_size * POINT * (beside.mark + _MARK_APART) if beside.mark else 0.0
    foot = room - (beside.square + APART if beside.square else 0.0)
    return {"name": head - mark, "kind": head, "ingredients": room, "caution": room, "foot": foot}
