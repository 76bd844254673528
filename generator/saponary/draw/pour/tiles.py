"""The pattern laid over each portion, so that it can be told apart without its colour."""

from __future__ import annotations

from dataclasses import dataclass

from saponary.draw.pour.ink import ink_on
from saponary.quantity.contrast import luminance
from saponary.quantity.rounding import as_decimal

QUIET_ON_PALE = 1.28
QUIET = 1.5


@dataclass(frozen=True)
class Tile:
    """A tile of marks; lengths are twentieths of a drawing length."""

    name: str
    width: int
    height: int
    turn: int
    drawn: bool  # lines rather than filled marks
    marks: str


TILES = (
    Tile("hatch", 34, 34, 45, True, '<path d="M-2 17H36"/>'),
    Tile("dots", 44, 44, 0, False, '<circle cx="11" cy="11" r="4.6"/><circle cx="33" cy="33" r="4.6"/>'),
    Tile("waves", 64, 34, 0, True, '<path d="M-32 17q16-15 32 0t32 0t32 0t32 0"/>'),
    Tile("crosses", 56, 56, 0, True, '<path d="M14 6v16M6 14h16M42 34v16M34 42h16"/>'),
    Tile(
        "grain",
        90,
        90,
        0,
        True,
        '<path d="M8 14l9 5M38 8l4 9M66 18l9-4M22 40l3 10M52 36l10 2M78 46l2 9M10 68l10-2M40 62l7 7'
        'M64 74l-3 9M30 82l9-3M84 76l-8-3"/>',
    ),
    Tile("rings", 56, 56, 0, True, '<circle cx="14" cy="14" r="7.5"/><circle cx="42" cy="42" r="7.5"/>'),
    Tile("dashes", 40, 30, -45, True, '<path d="M2 7h22M22 22h22M-18 22h22"/>'),
    Tile("uprights", 44, 40, 0, True, '<path d="M12 -2V42M22 -2V42"/>'),
    Tile("chevrons", 48, 32, 0, True, '<path d="M-2 25.5L24 8L50 25.5"/>'),
    Tile("lattice", 40, 40, 45, True, '<path d="M-2 20H42M20-2V42"/>'),
    Tile("bricks", 60, 40, 0, True, '<path d="M-2 10H62M-2 30H62M15 10V30M45 -10V10M45 30V50"/>'),
    Tile("wedges", 52, 52, 0, False, '<path d="M13 6l7.5 13h-15zM39 32l7.5 13h-15z"/>'),
    Tile("squares", 52, 52, 0, False, '<path d="M8 8h10v10h-10zM34 34h10v10h-10z"/>'),
    Tile("crescents", 60, 44, 0, True, '<path d="M5 9a10 9 0 0 0 20 0M35 31a10 9 0 0 0 20 0"/>'),
)


def pattern(number: int, shade: str, id: str) -> str:
    """The SVG pattern of portion `number`; beyond the last tile they come round, turned and larger."""
    tile = TILES[number % len(TILES)]
    again = number // len(TILES)
    ink = ink_on(shade, QUIET_ON_PALE if luminance(shade) > 0.55 else QUIET)
    turn, grow = tile.turn + 25 * again, 1 + 0.3 * again
    change = (f"rotate({turn})" if turn else "") + (f"scale({as_decimal(grow, 2)})" if again else "")
    paint = f'fill="{ink}"'
    if tile.drawn:
        paint = f'fill="none" stroke="{ink}" stroke-width="5" stroke-linecap="round"'
    return (
        f'<pattern id="{id}" width="{tile.width}" height="{tile.height}" patternUnits="userSpaceOnUse"'
        + (f' patternTransform="{change}"' if change else "")
        + f"><g {paint}>{tile.marks}</g></pattern>"
    )
