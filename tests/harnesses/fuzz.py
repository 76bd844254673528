"""Harness of broken files: bytes and structure of the starter recipes changed at random; nothing is ever raised."""

from __future__ import annotations

import random
from pathlib import Path

from harnesses.harness import Harness, Score
from saponary.assets import resources
from saponary.reading.decode import decoded
from support import prove_one

_BYTES = b"\x00\xff\xfe:{}[]-#&*!|>'\"%@`,?\n\r\t \xe2\x80\x8b09azAZ<=/"


def _bytes(data: bytes, chance: random.Random) -> bytes:
    """A few bytes changed, doubled or dropped."""
    out = bytearray(data)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(out) or 1)
        match chance.randrange(4):
            case 0:
                out[at : at + 1] = bytes([chance.choice(_BYTES)])
            case 1:
                del out[at : at + chance.randint(1, 40)]
            case 2:
                out[at:at] = bytes(chance.choice(_BYTES) for _ in range(chance.randint(1, 8)))
            case _:
                out[at:at] = out[at : at + chance.randint(1, 200)]
    return bytes(out)


def _lines(data: bytes, chance: random.Random) -> bytes:
    """Lines moved, doubled, dropped, or further in than they were."""
    lines = data.split(b"\n")
    for _ in range(chance.randint(1, 5)):
        at, to = chance.randrange(len(lines)), chance.randrange(len(lines))
        match chance.randrange(4):
            case 0:
                lines[at], lines[to] = lines[to], lines[at]
            case 1:
                lines.insert(to, lines[at])
            case 2:
                lines.pop(at) if len(lines) > 2 else None
            case _:
                lines[at] = b" " * chance.randrange(5) + lines[at].lstrip()
    return b"\n".join(lines)


def fuzz(folder: Path, chance: random.Random, tries: int) -> Score:
    score = Score()
    starters = [path.read_bytes() for path in sorted(resources.starters().glob("*.md"))]
    for turn in range(tries):
        data = chance.choice([_bytes, _lines])(chance.choice(starters), chance)
        try:
            text, _ = decoded(data, "recipes/tried.md")
            if text is not None:
                prove_one(text)
        except Exception as error:
            score.count(f"{turn}: {type(error).__name__} {error}")
        else:
            score.count(None)
    return score


HARNESSES = (Harness("bytes and lines changed", fuzz, 20_000, 12),)
