"""CPU time and bytes of a pair of faces, and the worst area in it, for every kind of pour, the slowest first:
`python tests/benchmarks/drawings.py`.

A portion's area is counted by the rasteriser of the tests; portions of less than a twentieth are left out.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from draw.pour_scenes import BEDS, EVERYTHING, FACES, LAYINGS, STIRRED, painted, scene, shares
from saponary.draw.pour import DrawnPortion, Scene, Shade
from saponary.draw.pour.drawing import draw_pair
from saponary.messages.speaker import speaker

PASSES = 5
SKEWER = {"swirl": {"tool": "skewer", "passes": 2}}
COMB = {"swirl": {"tool": "comb", "passes": 2}}
EMBEDS = {"embeds": {"of": "clear", "shape": "round", "across": "12 mm", "count": 2}}
POURS = {
    **LAYINGS,
    **STIRRED,
    "skewer through spoonfuls": [*LAYINGS["plops"], SKEWER],
    "skewer through small spoonfuls": [*LAYINGS["small plops"], SKEWER],
    "columns, comb, then skewer": [*LAYINGS["columns"], COMB, SKEWER],
    "comb about embeds": [*BEDS, EMBEDS, COMB],
    "skewer about embeds": [*BEDS, EMBEDS, SKEWER],
    "spoonfuls, embeds, then skewer": [*LAYINGS["plops"], EMBEDS, SKEWER],
    "skewer, then drops": [*BEDS[:1], SKEWER, {"drops": {"into": "chalk", "of": ["madder"], "count": 2}}],
    "everything": EVERYTHING,
}
MANY = tuple(
    DrawnPortion(f"p{i}", (i + 3) / 102, Shade(f"#{20 * i:02x}8060", f"#{20 * i:02x}9070")) for i in range(12)
)


def scenes() -> Iterator[tuple[str, Scene]]:
    for name, steps in POURS.items():
        yield name, scene(steps)
    yield "comb over beds, from above", scene([*BEDS, COMB], FACES["slab-from-above"])
    for face in ("slab", "round"):
        yield f"skewer through spoonfuls, {face}", scene([*LAYINGS["plops"], SKEWER], FACES[face])
    many = [{"plops": {"of": [portion.name for portion in MANY]}}, SKEWER]
    yield "twelve portions in spoonfuls", scene(many, portions=MANY)


def worst(pour: Scene) -> float:
    found = shares(painted(pour), pour.portions)
    return max(
        abs(found[one.name] / one.volume_share - 1) for one in pour.portions if one.volume_share >= 0.05
    )


def main() -> None:
    say, rows = speaker(), list[tuple[float, str]]()
    for name, pour in scenes():
        best = float("inf")
        for _ in range(PASSES):
            start = time.process_time()
            pair = draw_pair(pour, "a", say)
            best = min(best, time.process_time() - start)
        size = len(pair.fresh_svg) / 1000
        rows.append((best, f"{name:34} {1000 * best:9.1f} {size:9.1f} {100 * worst(pour):8.2f}"))
    print(f"{'a pair of drawings':34} {'ms of CPU':>9} {'kB a face':>9} {'% off':>8}")
    for _, row in sorted(rows, reverse=True):
        print(row)


if __name__ == "__main__":
    main()
