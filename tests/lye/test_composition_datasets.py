"""Saponification and iodine values from measured compositions, over 668 oils.

The data and their provenance: `tests/data/datasets/README.md`. The published ranges are those
of the standard tables, whose source marks travel with them; they are written out here so that
a change of the tables cannot move the yardstick.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from saponary.lye.fatty_acids import iodine_value, mean_molar_mass, saponification_value

FOLDER = Path(__file__).parents[1] / "data" / "datasets"

ACIDS = {
    "palmitic_percent": "C16:0",
    "palmitoleic_percent": "C16:1",
    "stearic_percent": "C18:0",
    "oleic_percent": "C18:1",
    "linoleic_percent": "C18:2",
    "linolenic_percent": "C18:3",
    "arachidic_percent": "C20:0",
    "eicosanoic_percent": "C20:0",
    "eicosenoic_percent": "C20:1",
}

# Class: saponification range mg KOH/g, iodine range g/100 g, and a usual unsaponifiable share.
# Olive CXS 33 (from memory); soybean, rapeseed CXS 210 (verified in transcription); sunflower CXS 210 as
# amended 2022 (saponification verified, iodine second-hand); peanut, maize CXS 210 (from memory); pumpkin
# seed has no Codex entry, its ranges are from memory. Unsaponifiable shares: typical, from memory.
RANGES = {
    "olive-572": ((184, 196), (75, 94), 0.010),
    "olive": ((184, 196), (75, 94), 0.010),
    "sunflower": ((187, 194), (118, 141), 0.008),
    "soybean": ((189, 195), (124, 139), 0.007),
    "rapeseed": ((182, 193), (105, 126), 0.009),
    "peanut": ((187, 196), (77, 107), 0.006),
    "corn": ((187, 195), (103, 135), 0.013),
    "pumpkin": ((185, 198), (103, 133), 0.010),
}

# Oils of each class, how many fall inside for saponification, and how many for iodine: as measured here.
# The single miss is one commercial oil sold as olive, 17.0 % linoleic and 3.9 % linolenic, whose iodine
# value of 96.9 no pure olive oil has. Peanut stays inside although C22 and C24 acids were not measured
# (its rows sum to 94.8 to 97.6 %), so that its computed saponification value runs about 1 too high.
INSIDE = {
    "olive-572": (572, 572, 572),
    "olive": (7, 7, 6),
    "sunflower": (26, 26, 26),
    "soybean": (11, 11, 11),
    "rapeseed": (10, 10, 10),
    "peanut": (3, 3, 3),
    "corn": (2, 2, 2),
    "pumpkin": (37, 37, 37),
}

# The independent working in the data's README: saponification low, high, mean; iodine low, high, mean.
BY_HAND = {
    "olive-572": (191.4, 193.9, 192.6, 77.4, 86.4, 82.1),
    "olive": (191.9, 192.9, 192.3, 82.1, 96.9, 84.9),
    "pumpkin": (192.1, 193.1, 192.6, 107.9, 125.7, 115.7),
    "sunflower": (191.3, 192.1, 191.9, 129.5, 136.1, 132.0),
    "soybean": (192.5, 193.0, 192.8, 127.3, 133.8, 130.8),
    "corn": (192.4, 192.7, 192.5, 120.1, 124.8, 122.4),
    "rapeseed": (191.1, 191.8, 191.3, 111.8, 118.7, 115.2),
    "peanut": (191.6, 191.7, 191.7, 91.6, 92.2, 92.0),
}


def _rows(name: str) -> Iterator[tuple[str, dict[str, float]]]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield row.get("class", "olive-572"), {ACIDS[k]: float(v) for k, v in row.items() if k in ACIDS}


@cache
def oils() -> dict[str, list[dict[str, float]]]:
    found: dict[str, list[dict[str, float]]] = {name: [] for name in RANGES}
    for file in ("olive_forina1983.csv", "oils_brodnjak2005.csv"):
        for kind, composition in _rows(file):
            found[kind].append(composition)
    return found


def _inside(values: list[float], ends: tuple[float, float]) -> int:
    return sum(ends[0] <= value <= ends[1] for value in values)


@pytest.mark.parametrize("kind", RANGES)
def test_share_inside_the_published_range(kind: str) -> None:
    saponification_ends, iodine_ends, _ = RANGES[kind]
    compositions = oils()[kind]
    saponification = [saponification_value(c) for c in compositions]
    iodine = [iodine_value(c) for c in compositions]
    measured = (
        len(compositions),
        _inside(saponification, saponification_ends),
        _inside(iodine, iodine_ends),
    )
    assert measured == INSIDE[kind]


@pytest.mark.parametrize("kind", RANGES)
def test_unsaponifiable_matter_keeps_every_oil_inside(kind: str) -> None:
    """A measured value is lower by what takes no alkali; the computed one follows it, and all stay inside."""
    ends, _, share = RANGES[kind]
    plain = [saponification_value(c) for c in oils()[kind]]
    lowered = [saponification_value(c, unsaponifiable=share) for c in oils()[kind]]
    assert _inside(lowered, ends) == len(plain)
    assert lowered == pytest.approx([value * (1 - share) for value in plain], rel=1e-12)


def test_the_one_oil_outside() -> None:
    outside = [c for c in oils()["olive"] if iodine_value(c) > 94]
    assert [(c["C18:2"], c["C18:3"]) for c in outside] == [(17.0, 3.9)]
    assert iodine_value(outside[0]) == pytest.approx(96.9, abs=0.05)


@pytest.mark.parametrize("kind", BY_HAND)
def test_agrees_with_the_working_by_hand(kind: str) -> None:
    """To 0.1: the working by hand is printed to 0.1, and takes its iodine factors at three decimals."""
    saponification = [saponification_value(c) for c in oils()[kind]]
    iodine = [iodine_value(c) for c in oils()[kind]]
    computed = [
        figure
        for values in (saponification, iodine)
        for figure in (min(values), max(values), sum(values) / len(values))
    ]
    assert computed == pytest.approx(BY_HAND[kind], abs=0.1)


def test_by_moles_of_ester_groups_instead() -> None:
    """The same value by another road: hydroxide per gram of acids, over the grams of fat those acids make.

    Atomic weights C 12.011, H 1.008, O 15.999, K 39.098 (abridged handbook values, from memory): their last
    figures differ from the engine's by up to 2.5e-5 in a molar mass.
    """
    hydrogens = {
        "C16:0": 32,
        "C16:1": 30,
        "C18:0": 36,
        "C18:1": 34,
        "C18:2": 32,
        "C18:3": 30,
        "C20:0": 40,
        "C20:1": 38,
    }
    mass = {key: int(key[1:3]) * 12.011 + n * 1.008 + 2 * 15.999 for key, n in hydrogens.items()}
    residue = 3 * 12.011 + 2 * 1.008  # glycerol less three waters: C3H2
    for composition in (c for compositions in oils().values() for c in compositions):
        whole = sum(composition.values())
        groups = sum(part / whole / mass[key] for key, part in composition.items())
        expected = 1000 * 56.105 * groups / (1 + groups / 3 * residue)
        assert saponification_value(composition) == pytest.approx(expected, rel=5e-5)
        assert mean_molar_mass(composition) == pytest.approx(1 / groups, rel=5e-5)


def test_shares_as_a_table() -> None:
    """Prints the shares (run with -s); over both sets together all but one oil lie inside."""
    total = [0, 0, 0]
    print(f"\n{'class':12}{'oils':>6}{'SV inside':>12}{'IV inside':>12}")
    for kind, (saponification_ends, iodine_ends, _) in RANGES.items():
        compositions = oils()[kind]
        counts = [
            len(compositions),
            _inside([saponification_value(c) for c in compositions], saponification_ends),
            _inside([iodine_value(c) for c in compositions], iodine_ends),
        ]
        total = [a + b for a, b in zip(total, counts, strict=True)]
        print(f"{kind:12}{counts[0]:6}{counts[1] / counts[0]:12.1%}{counts[2] / counts[0]:12.1%}")
    print(f"{'all':12}{total[0]:6}{total[1] / total[0]:12.1%}{total[2] / total[0]:12.1%}")
    assert total == [668, 668, 667]
