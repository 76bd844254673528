"""Outlines as smooth SVG curves: quadratic B-splines, whose joints need only two numbers each.

Between two controls c and d of such a curve lies the joint (c + d) / 2, and each control is the mirror image of
the one before it in the joint between them, which is what `t` in path data says. Controls on even whole numbers
have whole joints, so that nothing is lost. Controls stand closer where an outline bends. At a corner one curve ends
and the next begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.carried import NOWHERE, Line
from saponary.draw.pour.seed import Array
from saponary.draw.pour.smooth import Plane, off_chord

CORNER = 0.85
TURN = 0.85
"""The most that a curve turns from one control to the next, as long as there are not too many."""
FLAT = 34.0
"""Where a curve bends with the radius r, controls are √(r × this) apart."""
LONGEST = 170.0
HIDDEN, HIDDEN_CORNER = 0.6, 1.3
"""Of the controls, as many are enough for what is painted over; and its corners are sharper."""
STRAIGHT = 0.05
STEADY = 6
TURNS = 4
Whole = NDArray[np.int64]


def curves(lines: Sequence[Line], most: int) -> list[str]:
    """Path data of closed lines, which are in units of the drawing; all together have about `most` controls.

    How deep a line lies is in lengths of the mould.
    """
    if not lines:
        return []
    points = np.concatenate([line.points[:, 0] + 1j * line.points[:, 1] for line in lines])
    hidden = np.concatenate([line.depths for line in lines])
    sizes = np.array([len(line.points) for line in lines])
    kept = np.abs(points - points[_before(sizes)]) > 1e-6
    owner = np.repeat(np.arange(len(lines)), sizes)
    kept &= (np.bincount(owner[kept], minlength=len(lines)) > 2)[owner]
    sizes = np.bincount(owner[kept], minlength=len(lines))
    some = sizes > 0
    if not some.any():
        return [""] * len(lines)
    texts = iter(_written(_pieces(points[kept], hidden[kept] > NOWHERE, sizes[some]), most))
    return [next(texts) if one else "" for one in some.tolist()]


def _before(sizes: Whole) -> Whole:
    """Of points laid end to end on closed lines, which comes before each."""
    found = np.arange(int(sizes.sum())) - 1
    ends = np.cumsum(sizes)
    found[(ends - sizes)[sizes > 0]] = (ends - 1)[sizes > 0]
    return found


@dataclass(frozen=True)
class _Pieces:
    """Stretches without a corner, of lines laid end to end; `run` goes up by one from each control to the next."""

    points: Plane
    run: Array
    first: Whole
    last: Whole
    owner: Whole
    """Of which line each is."""
    round: NDArray[np.bool_]
    """Which are a whole line."""
    straight: NDArray[np.bool_]


def _pieces(points: Plane, hidden: NDArray[np.bool_], sizes: Whole) -> _Pieces:
    starts, previous = np.cumsum(sizes) - sizes, _before(sizes)
    following = np.arange(len(points)) + 1
    following[starts + sizes - 1] = starts
    step = points[following] - points
    length, turning = np.abs(step), step * step[previous].conj()
    turn = np.abs(np.arctan2(turning.imag, turning.real))
    corner = turn > np.where(hidden, HIDDEN_CORNER, CORNER)
    turn[corner] = 0.0
    wish = np.maximum(np.sqrt(turn * (length + length[previous]) / (2.0 * FLAT)), turn / TURN)
    wish[hidden] *= HIDDEN
    bending = wish
    for _ in range(2):
        wish = wish / 2.0 + (wish[previous] + wish[following]) / 4.0
    wish = (wish + wish[following]) / 2.0 + length / LONGEST
    # Each line begins at its first corner, if it has one, and ends where it began.
    begin = starts.copy()
    at_corner = np.flatnonzero(corner)
    place = np.searchsorted(at_corner, starts)
    has = place < len(at_corner)
    has[has] = at_corner[place[has]] < (starts + sizes)[has]
    begin[has] = at_corner[place[has]]
    ends = np.cumsum(sizes + 1) - 1
    owner = np.repeat(np.arange(len(sizes)), sizes + 1)
    along = np.arange(len(owner)) - (ends - sizes)[owner]
    flat = starts[owner] + (begin[owner] - starts[owner] + along) % sizes[owner]
    grown = np.concatenate([[0.0], wish[flat[:-1]]])
    grown[ends[:-1] + 1] = 1.0
    breaks = corner[flat]
    breaks[ends], breaks[ends - sizes] = True, True
    at = np.flatnonzero(breaks)
    within = owner[at[1:]] == owner[at[:-1]]
    first, last = at[:-1][within], at[1:][within]
    bent = np.concatenate([[0.0], np.cumsum(bending[flat])])
    straight = bent[last] - bent[first + 1] < STRAIGHT
    return _Pieces(points[flat], np.cumsum(grown), first, last, owner[first], ~has[owner[first]], straight)


def _written(made: _Pieces, most: int) -> list[str]:
    wanted = made.run[made.last] - made.run[made.first]
    scale = min(1.0, most / float(wanted.sum()))
    count = np.maximum(np.ceil(wanted * scale - 1e-6), np.where(made.round, 4, 1)).astype(np.int64)
    count[made.straight & ~made.round] = 1
    ends = np.cumsum(count)
    starts = ends - count
    piece = np.repeat(np.arange(len(count)), count)
    part = (np.arange(len(piece)) - starts[piece] + 0.5) / count[piece]
    at = made.run[made.first][piece] + part * wanted[piece]
    controls = _controls(_between(made, at, piece), made, starts, ends)
    return _texts(made, _even(controls.real) + 1j * _even(controls.imag), starts, ends)


def _texts(made: _Pieces, controls: Plane, starts: Whole, ends: Whole) -> list[str]:
    """Path data: after the first control of a curve each is the mirror image of the one before it."""
    corners = _whole(made.points.real) + 1j * _whole(made.points.imag)
    begin, end, last = corners[made.first], corners[made.last], ends - 1
    middle = (controls[last] + controls[starts]) / 2.0
    begin[made.round] = end[made.round] = middle[made.round]
    to = np.empty_like(controls)
    to[:-1] = (controls[:-1] + controls[1:]) / 2.0
    to[last] = end
    step = np.empty_like(controls)
    step[1:] = to[1:] - to[:-1]
    step[starts] = to[starts] - begin
    first, whole = _listed(controls[starts] - begin), _listed(step)
    begins, lines = _listed(begin), made.straight & ~made.round
    texts: list[str] = []
    for i, (owner, start, stop, line) in enumerate(
        zip(*(of.tolist() for of in (made.owner, 2 * starts, 2 * ends, lines)), strict=True)
    ):
        if owner == len(texts):
            texts.append(_numbers("M", begins[2 * i : 2 * i + 2]))
        if line:
            texts[-1] += _numbers("l", whole[start:stop])
        else:
            texts[-1] += _numbers("q", first[2 * i : 2 * i + 2] + whole[start : start + 2])
            if stop > start + 2:
                texts[-1] += _numbers("t", whole[start + 2 : stop])
    return [text + "z" for text in texts]


def _listed(places: Plane) -> list[int]:
    """x and y by turns; all are whole."""
    found: list[int] = places.view(np.float64).astype(np.int64).tolist()
    return found


def _between(made: _Pieces, at: Array, piece: Whole) -> Plane:
    """Places of pieces, on smooth curves through their points: chords would make every round shape smaller."""
    points, first, last = made.points, made.first[piece], made.last[piece]
    index = np.clip(np.searchsorted(made.run, at, side="right") - 1, first, last - 1)
    here, there = points[index], points[index + 1]
    part = (at - made.run[index]) / (made.run[index + 1] - made.run[index])
    chord = there - here
    length = np.abs(chord)
    around = made.round[piece]
    before = points[np.where(index > first, index - 1, np.where(around, last - 1, index))]
    after = points[np.where(index + 1 < last, index + 2, np.where(around, first + 1, index + 1))]
    leave = off_chord(here - before, chord, length)
    reach = off_chord(after - there, chord, length)
    other = 1.0 - part
    found: Plane = here + part * chord + part * other * (other * leave - part * reach)
    return found


def _controls(places: Plane, made: _Pieces, starts: Whole, ends: Whole) -> Plane:
    """Controls of curves that go through the places, which lie in the middle between joints."""
    last = ends - 1
    single = last == starts
    many, alone = ~made.round & ~single, ~made.round & single
    begin, end = made.points[made.first], made.points[made.last]
    found = places
    for _ in range(TURNS):
        before, after = np.roll(found, 1), np.roll(found, -1)
        before[starts], after[last] = found[last], found[starts]
        # Midway between its joints a curve is at (c + 6 d + e) / 8, next to a corner at (2 corner + 5 d + e) / 8.
        better = (8.0 * places - before - after) / 6.0
        better[starts[many]] = ((8.0 * places - after)[starts[many]] - 2.0 * begin[many]) / 5.0
        better[last[many]] = ((8.0 * places - before)[last[many]] - 2.0 * end[many]) / 5.0
        better[starts[alone]] = 2.0 * places[starts[alone]] - (begin[alone] + end[alone]) / 2.0
        found = better
    return found


def _even(lengths: Array) -> Whole:
    found: Whole = 2 * np.rint(np.round(lengths / 2.0, STEADY)).astype(np.int64)
    return found


def _whole(lengths: Array) -> Whole:
    """To whole numbers, without the noise of the last bits, in which processors and libraries differ."""
    found: Whole = np.rint(np.round(lengths, STEADY)).astype(np.int64)
    return found


def _numbers(letter: str, numbers: list[int]) -> str:
    return letter + " ".join(map(str, numbers)).replace(" -", "-")
