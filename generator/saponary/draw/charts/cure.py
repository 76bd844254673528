"""The cure curve as a picture: a bar's weighings, the fitted curve and the day it is ready.

An SVG to be set inline in a page. Everything is told twice, by shape as well as by colour,
and once more in words in its description. It holds no script, style sheet or outside
resource; ink is the page's own text colour, and the curve's is the page's `--accent`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from math import ceil, floor, isfinite, log10

from saponary.draw.charts.cure_words import Point, band, in_words, note, ready_label
from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.cure.readings import WEEKLY_LOSS, Ready, ready_day, weight_at, weight_interval
from saponary.messages.message import Number, short
from saponary.messages.speaker import Speaker
from saponary.quantity.numbers import OUNCE
from saponary.quantity.rounding import show

ACCENT = "var(--accent, #8a4b2d)"
WIDTH, PLOT_LEFT, PLOT_RIGHT, PLOT_TOP, PLOT_BOTTOM = 360.0, 42.0, 350.0, 24.0, 204.0
"""In picture units; at 320 pixels a unit is 0.89 of one, so that text of 14 stays above 12."""
TEXT, LINE = 14, 17
LETTERS = 45
"""Letters of a line below the picture."""
DAY_STEPS = (1, 2, 7, 14, 28, 56, 112, 182, 364, 728, 1820)
"""Days between ticks: whole weeks as soon as they fit."""
STEPS_OF_CURVE = 60
LABEL = 200.0
"""Room that the longest words about the ready day may take, picture units."""
_CROSS = '10 {y}m-4 -4l8 8m0 -8l-8 8" stroke-width="2"'
_DOTTED = '5 {y}h22" stroke-width="1.5" stroke-dasharray="1.5 4" stroke-linecap="round"'


@dataclass(frozen=True)
class _Frame:
    """What part of days and grams the picture shows."""

    days: float
    low: float
    high: float

    def x(self, day: float) -> float:
        return PLOT_LEFT + (PLOT_RIGHT - PLOT_LEFT) * day / self.days

    def y(self, grams: float) -> float:
        held = min(self.high, max(self.low, grams))
        return PLOT_BOTTOM - (PLOT_BOTTOM - PLOT_TOP) * (held - self.low) / (self.high - self.low)


def cure_chart(
    weighings: Iterable[tuple[float, float]],
    fit: CureFit | NoFit,
    title: str,
    id_prefix: str,
    say: Speaker,
    weekly_loss: float = WEEKLY_LOSS,
) -> str:
    """The picture of weighings (pairs of day and grams). `id_prefix` keeps its ids apart in a page."""
    points = sorted((float(d), float(g)) for d, g in weighings if isfinite(d) and isfinite(g) and d >= 0)
    left_out = [(s.day, s.grams) for s in fit.suspects]
    ready = ready_day(fit, weekly_loss) if isinstance(fit, CureFit) else None
    frame = _frame(points, fit, ready)
    prefix = re.sub(r"[^A-Za-z0-9_-]+", "-", id_prefix) or "cure"
    parts = [*_axes(frame, say)] if points else []
    if isinstance(fit, CureFit) and ready is not None:
        parts += [*_band(frame, fit, prefix), *_curve(frame, fit), *_marks(frame, fit, ready, say)]
    parts += [_dot(frame, point, point in left_out) for point in points]
    below, bottom = _below(points, fit, left_out, prefix, say)
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {show(WIDTH, 0)} {show(bottom, 0)}" width="100%"'
            f' role="img" aria-labelledby="{prefix}-title {prefix}-desc" font-size="{TEXT}"'
            ' fill="currentColor">',
            f'<title id="{prefix}-title">{_text(title)}</title>',
            f'<desc id="{prefix}-desc">{_text(in_words(points, fit, ready, say))}</desc>',
            *parts,
            *below,
            "</svg>",
        ]
    )


def _text(words: str) -> str:
    """Text for markup; characters that XML forbids become the replacement character."""
    return escape(re.sub("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "\ufffd", words))


def _frame(points: Sequence[Point], fit: CureFit | NoFit, ready: Ready | None) -> _Frame:
    last = max([day for day, _ in points], default=0.0)
    days = max(last, 7.0)
    weights = [grams for _, grams in points] or [0.0, 100.0]
    low, high = min(weights), max(weights)
    if isinstance(fit, CureFit) and ready is not None:
        # A forecast more than as far again is told in words, not drawn.
        days = max(days, min(ready.day + 3.0, 2.0 * last))
        low, high = min(low, weight_at(fit, days)), max(high, fit.start_g)
        room = high - low
        if fit.plateau_g > low - room:
            low = min(low, fit.plateau_g)
        reach = [weight_interval(fit, day) for day in (fit.first_day, days)]
        low = min([low, *(max(low - room / 4, part[0]) for part in reach if part)])
        high = max([high, *(min(high + room / 4, part[1]) for part in reach if part)])
    if high - low <= 1e-9 * max(1.0, abs(high)):
        low, high = low - 1.0, high + 1.0
    margin = 0.06 * (high - low)
    return _Frame(days * 1.03, low - margin, high + margin)


def _ticks(low: float, high: float) -> tuple[list[float], int]:
    """Ticks 1, 2 or 5 times a power of ten apart, and the decimals that their numbers need."""
    rough = (high - low) / 4
    power = floor(log10(rough))
    step = min((m * 10.0**power for m in (1, 2, 5, 10)), key=lambda s: abs(s - rough))
    decimals = max(0, -floor(log10(step) + 1e-9))
    return [i * step for i in range(ceil(low / step), floor(high / step) + 1)], decimals


def _axes(frame: _Frame, say: Speaker) -> Iterable[str]:
    unit = OUNCE if say.units == "oz" else 1.0
    marks, decimals = _ticks(frame.low / unit, frame.high / unit)
    ticks = [(mark, frame.y(mark * unit)) for mark in marks]
    name = say("chart.cure.ounces") if say.units == "oz" else say("chart.cure.grams")
    yield f'<text x="2" y="{TEXT}">{_text(name)}</text>'
    yield '<g stroke="currentColor" fill="none">'
    for _, y in ticks:
        yield f'<path d="M{show(PLOT_LEFT, 1)} {show(y, 1)}H{show(PLOT_RIGHT, 1)}" stroke-opacity="0.2"/>'
    step = next((s for s in DAY_STEPS if frame.days / s <= 7), ceil(frame.days / 7))
    days = range(0, floor(frame.days) + 1, step)
    for day in days:
        yield f'<path d="M{show(frame.x(day), 1)} {show(PLOT_BOTTOM, 1)}v5"/>'
    yield f'<path d="M{show(PLOT_LEFT, 1)} {show(PLOT_TOP, 1)}V{show(PLOT_BOTTOM, 1)}H{show(PLOT_RIGHT, 1)}"/></g>'
    yield '<g text-anchor="end">'
    for mark, y in ticks:
        yield f'<text x="{show(PLOT_LEFT - 5, 1)}" y="{show(y + 5, 1)}">{say(Number(mark, decimals))}</text>'
    yield '</g><g text-anchor="middle">'
    for day in days:
        yield f'<text x="{show(frame.x(day), 1)}" y="{show(PLOT_BOTTOM + 19, 1)}">{day}</text>'
    middle = (PLOT_LEFT + PLOT_RIGHT) / 2
    days_after = _text(say("chart.cure.days"))
    yield f'<text x="{show(middle, 1)}" y="{show(PLOT_BOTTOM + 37, 1)}">{days_after}</text></g>'


def _path(frame: _Frame, points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{show(frame.x(day), 1)} {show(frame.y(grams), 1)}" for day, grams in points)


def _days(begin: float, end: float) -> list[float]:
    return [begin + (end - begin) * i / STEPS_OF_CURVE for i in range(STEPS_OF_CURVE + 1)]


def _hatch(prefix: str) -> str:
    return (
        f'<defs><pattern id="{prefix}-hatch" width="6" height="6" patternUnits="userSpaceOnUse"'
        f' patternTransform="rotate(45)"><path d="M3 0V6" stroke="{ACCENT}" stroke-width="1"'
        ' stroke-opacity="0.75"/></pattern></defs>'
    )


def _band(frame: _Frame, fit: CureFit, prefix: str) -> Iterable[str]:
    spans = [(day, weight_interval(fit, day)) for day in _days(fit.first_day, frame.days)]
    upper = [(day, span[1]) for day, span in spans if span]
    lower = [(day, span[0]) for day, span in spans if span]
    if not upper:
        return
    yield _hatch(prefix)
    yield f'<path d="{_path(frame, [*upper, *reversed(lower)])}Z" fill="url(#{prefix}-hatch)"/>'


def _curve(frame: _Frame, fit: CureFit) -> Iterable[str]:
    """Whole where there are weighings, broken where it only foretells."""
    for begin, end, dash in ((fit.first_day, fit.last_day, ""), (fit.last_day, frame.days, "7 4")):
        if end > begin:
            line = _path(frame, [(day, weight_at(fit, day)) for day in _days(begin, end)])
            broken = f' stroke-dasharray="{dash}"' if dash else ""
            yield f'<path d="{line}" fill="none" stroke="{ACCENT}" stroke-width="2.5"{broken}/>'


def _marks(frame: _Frame, fit: CureFit, ready: Ready, say: Speaker) -> Iterable[str]:
    """The plateau, and the day the bar is ready, each with its words beside it."""
    if fit.plateau_g >= frame.low:
        y = frame.y(fit.plateau_g)
        yield (
            f'<path d="M{show(PLOT_LEFT, 1)} {show(y, 1)}H{show(PLOT_RIGHT, 1)}" stroke="currentColor"'
            ' stroke-width="1.5" stroke-dasharray="1.5 4" stroke-linecap="round"/>'
        )
    label_x, anchor = PLOT_RIGHT, "end"
    if not ready.by_first and ready.day <= frame.days:
        x, y = frame.x(ready.day), frame.y(weight_at(fit, ready.day))
        yield (
            f'<path d="M{show(x, 1)} {show(PLOT_TOP - 20, 1)}V{show(PLOT_BOTTOM, 1)}" stroke="currentColor"'
            ' stroke-dasharray="4 3"/>'
            f'<path d="M{show(x, 1)} {show(y - 7, 1)}l7 7l-7 7l-7 -7z" fill="{ACCENT}"/>'
        )
        if x < PLOT_LEFT + 14:
            label_x, anchor = PLOT_LEFT + 18, "start"
        elif x < PLOT_RIGHT - LABEL:
            label_x, anchor = x + 5, "start"
        else:
            label_x = x - 5 if x > PLOT_LEFT + LABEL else PLOT_RIGHT
    label = _text(say(ready_label(ready)))
    yield f'<text x="{show(label_x, 1)}" y="{TEXT}" text-anchor="{anchor}">{label}</text>'


def _dot(frame: _Frame, point: Point, left_out: bool) -> str:
    x, y = frame.x(point[0]), frame.y(point[1])
    if left_out:
        cross = f"M{show(x - 5, 1)} {show(y - 5, 1)}l10 10m0 -10l-10 10"
        return f'<path d="{cross}" stroke="currentColor" stroke-width="2.5"/>'
    return f'<circle cx="{show(x, 1)}" cy="{show(y, 1)}" r="4"/>'


def _wrapped(words: str) -> list[str]:
    lines = [""]
    for word in words.split(" "):
        if lines[-1] and len(lines[-1]) + 1 + len(word) > LETTERS:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    return lines


def _below(
    points: Sequence[Point], fit: CureFit | NoFit, left_out: Sequence[Point], prefix: str, say: Speaker
) -> tuple[list[str], float]:
    """Key and notes under the picture, and where they end."""
    y = PLOT_BOTTOM + 64.0 if points else 0.0
    parts = [*_key(y, fit, prefix, say)] if isinstance(fit, CureFit) else []
    if points:
        weighed = _text(say("chart.cure.weighed"))
        parts.insert(
            0, f'<circle cx="10" cy="{show(y - 5, 0)}" r="4"/><text x="20" y="{show(y, 0)}">{weighed}</text>'
        )
    if isinstance(fit, CureFit) and fit.covariance is not None:
        y += LINE + 4
    rows: list[tuple[str, str]] = []
    if left_out:
        listed = ", ".join(say("chart.cure.day", day=short(day)) for day, _ in left_out)
        rows.append((_CROSS, say("chart.cure.left-out", days=listed)))
    rows.append((_DOTTED if isinstance(fit, CureFit) else "", say(note(fit))))
    for mark, words in rows:
        y += 4
        for i, line in enumerate(_wrapped(words)):
            y += LINE
            if mark and i == 0:
                parts.append(f'<path d="M{mark.format(y=show(y - 5, 0))} stroke="currentColor"/>')
            parts.append(f'<text x="{34 if mark else 4}" y="{show(y, 0)}">{_text(line)}</text>')
    return parts, y + 8


def _key(y: float, fit: CureFit, prefix: str, say: Speaker) -> Iterable[str]:
    yield f'<path d="M96 {show(y - 5, 0)}h20" stroke="{ACCENT}" stroke-width="2.5"/>'
    yield f'<text x="121" y="{show(y, 0)}">{_text(say("chart.cure.curve"))}</text>'
    if fit.covariance is not None:
        y += LINE + 4
        swatch = f'<rect x="0" y="{show(y - 12, 0)}" width="20" height="14"'
        yield f'{swatch} fill="url(#{prefix}-hatch)"/>'
        yield f'<text x="34" y="{show(y, 0)}">{_text(say(band(fit)))}</text>'
