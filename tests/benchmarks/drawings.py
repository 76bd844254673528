"""CPU time to draw a pair of faces, for every kind of pour: `python tests/benchmarks/drawings.py`."""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from draw.pour_scenes import BEDS, EVERYTHING, FACES, LAYINGS, STIRRED, scene
from saponary.draw.pour.drawing import draw_pair
from saponary.messages.speaker import speaker

PASSES = 5
POURS = {
    **LAYINGS,
    **STIRRED,
    "skewer through spoonfuls": [*LAYINGS["plops"], {"swirl": {"tool": "skewer", "passes": 2}}],
    "columns, comb, then skewer": [
        *LAYINGS["columns"],
        {"swirl": {"tool": "comb", "passes": 2}},
        {"swirl": {"tool": "skewer", "passes": 2}},
    ],
    "comb over beds, from above": [*BEDS, {"swirl": {"tool": "comb", "passes": 2}}],
    "everything": EVERYTHING,
}
FROM_ABOVE = {"comb over beds, from above"}


def main() -> None:
    say = speaker()
    print(f"{'a pair of drawings':34} {'ms of CPU':>9} {'kB a face':>9}")
    for name, steps in POURS.items():
        pour = scene(steps, FACES["slab-from-above" if name in FROM_ABOVE else "loaf"])
        best = float("inf")
        for _ in range(PASSES):
            start = time.process_time()
            pair = draw_pair(pour, "a", say)
            best = min(best, time.process_time() - start)
        print(f"{name:34} {1000 * best:9.1f} {len(pair.fresh_svg) / 1000:9.1f}")


if __name__ == "__main__":
    main()
