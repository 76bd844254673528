"""Every figure and every mass, worked out again by a second calculation that shares no line with the engine.

`reckon` below imports nothing of the engine. It reads a batch as plain numbers, and works from
the moles up: molar masses by hand from the atomic weights, sums in the order of the trade's own
arithmetic. 2,000 random batches over every kind of input must agree to 1e-5; some of them in
the fast run.
"""

from __future__ import annotations

import random
from typing import Any

import pytest

NAOH = 22.98977 + 15.9994 + 1.00794
KOH = 39.0983 + 15.9994 + 1.00794
WATER = 2 * 1.00794 + 15.9994
GLYCEROL = 3 * 12.0107 + 8 * 1.00794 + 3 * 15.9994

Batch = dict[str, Any]


def batch(seed: int) -> Batch:
    """A batch as plain numbers."""
    rng = random.Random(seed)
    total = rng.choice([120.0, 500.0, 1000.0, 8000.0]) * rng.uniform(0.7, 1.3)
    weights = [rng.random() for _ in range(rng.randint(1, 6))]
    oils = [
        {
            "id": f"oil-{i}",
            "grams": total * part / sum(weights),
            "value": rng.uniform(15, 280),
            "below": rng.uniform(0, 6),
            "above": rng.uniform(0, 6),
            "ester": rng.choice(["triglyceride"] * 4 + ["acid", "wax"]),
            "density": rng.choice([None, 0.91, 0.96]),
        }
        for i, part in enumerate(weights)
    ]
    liquids = [
        {
            "id": f"liquid-{i}",
            "grams": total * rng.uniform(0, 0.06),
            "water": rng.uniform(0.5, 1.0),
            "fat": rng.choice([0.0, 0.04, 0.3]),
            "fat_value": rng.choice([190.0, 225.0]),
            "acid": rng.choice([0.0, 0.0, 0.0008]),
            "stage": rng.choice(["lye", "oils", "trace"]),
        }
        for i in range(rng.randint(0, 3))
    ]
    additions = [
        {
            "id": f"addition-{i}",
            "grams": total * rng.uniform(0, 0.04),
            "water": rng.choice([0.0, 0.0, 0.4, 0.95]),
            "fat": rng.choice([0.0, 0.0, 0.26]),
            "fat_value": 225.0,
            "acid": rng.choice([0.0, 0.0, 0.0156, 0.0008]),
            "base": rng.choice([0.0, 0.0, 0.0004]),
            "most": rng.choice([0.0, 0.0, 0.0011]),
            "metal": rng.choice(["sodium", "potassium"]),
            "stage": rng.choice(["lye", "oils", "trace", "pour"]),
            "cooled": rng.random() < 0.2,
        }
        for i in range(rng.randint(0, 4))
    ]
    sodium = rng.choice([1.0, 1.0, 0.0, rng.random()])
    return {
        "oils": oils,
        "liquids": liquids,
        "additions": additions,
        "sodium": sodium,
        "pure": (rng.choice([1.0, 0.98]), rng.choice([1.0, 0.9])),
        "superfat": rng.choice([0.0, 0.05, 0.2, rng.uniform(0, 0.4)]),
        "water": rng.choice(
            [
                ("lye-strength", rng.uniform(0.2, 0.4)),
                ("to-lye", rng.uniform(1.5, 4)),
                ("of-oils", rng.uniform(0.25, 0.6)),
            ]
        ),
    }


def reckon(b: Batch) -> dict[str, float]:
    """The second calculation: figures in fractions, masses in grams."""
    out: dict[str, float] = {}
    need = {o["id"]: o["grams"] * o["value"] / 1000 / KOH for o in b["oils"]}
    asked = sum(need.values())
    stirred = [a for a in b["additions"] if a["stage"] != "pour"]
    sour = sum(x["grams"] * x["acid"] for x in stirred + b["liquids"])
    brought = sum(a["grams"] * a["base"] for a in stirred)
    most = sum(a["grams"] * max(a["base"], a["most"]) for a in stirred)
    moles = asked * (1 - b["superfat"]) + sour
    out["naoh"] = moles * b["sodium"] * NAOH / b["pure"][0]
    out["koh"] = moles * (1 - b["sodium"]) * KOH / b["pure"][1]
    lye = out["naoh"] + out["koh"]
    oils = sum(o["grams"] for o in b["oils"])
    kind, value = b["water"]
    water = {"lye-strength": lye / value - lye, "to-lye": lye * value, "of-oils": oils * value}[kind]
    wet = sum(q["grams"] * q["water"] for q in b["liquids"])
    solutions = sum(a["grams"] * a["water"] for a in stirred)
    out["water"], out["plain"] = water, water - wet - solutions
    in_lye = sum(q["grams"] * q["water"] for q in b["liquids"] if q["stage"] == "lye") + sum(
        a["grams"] * a["water"] for a in stirred if a["stage"] == "lye" and not a["cooled"]
    )
    out["dissolved"] = lye / (lye + max(0.0, out["plain"] + in_lye)) if lye > 0 else 0.0
    there = moles + brought - sour
    out["superfat"] = (asked - there) / asked
    fat = [(x["grams"] * x["fat"], x["fat_value"]) for x in stirred + b["liquids"]]
    with_fat = asked + sum(g * v for g, v in fat) / 1000 / KOH
    out["superfat with fat"] = (with_fat - there) / with_fat
    down = sum(o["grams"] * o["below"] for o in b["oils"]) / 1000 / KOH
    up = sum(o["grams"] * o["above"] for o in b["oils"]) / 1000 / KOH
    out["worst low"] = 1 - (there - brought + most) / (asked - down)
    out["worst high"] = 1 - there / (asked + up)
    out |= _masses(b, need, there, moles + brought)
    out["batter"] = oils + lye + out["plain"] + sum(x["grams"] for x in stirred + b["liquids"])
    return out


def _masses(b: Batch, need: dict[str, float], there: float, alkali: float) -> dict[str, float]:
    """What the oils become: acids first, then all others alike."""
    taken = min(there, sum(need.values()))
    acids = sum(n for o in b["oils"] if o["ester"] == "acid" for n in [need[o["id"]]])
    by_acids = min(taken, acids)
    rest = sum(need.values()) - acids
    share = {True: by_acids / acids if acids else 0.0, False: (taken - by_acids) / rest if rest > 0 else 0.0}
    sodium = alkali_of(b, "sodium")
    molar = (sodium * NAOH + (alkali - sodium) * KOH) / alkali if alkali > 0 else 0.0
    glycerol = (
        sum(share[False] * need[o["id"]] for o in b["oils"] if o["ester"] == "triglyceride") / 3 * GLYCEROL
    )
    formed = by_acids * WATER
    used = sum(share[o["ester"] == "acid"] * o["grams"] for o in b["oils"])
    return {
        "glycerol": glycerol,
        "water formed": formed,
        "oil left": sum(o["grams"] for o in b["oils"]) - used,
        "soap": used + taken * molar - glycerol - formed,
    }


def alkali_of(b: Batch, metal: str) -> float:
    """Moles of one hydroxide, weighed and brought."""
    asked = sum(o["grams"] * o["value"] / 1000 / KOH for o in b["oils"])
    stirred = [a for a in b["additions"] if a["stage"] != "pour"]
    weighed = asked * (1 - b["superfat"]) + sum(x["grams"] * x["acid"] for x in stirred + b["liquids"])
    part = b["sodium"] if metal == "sodium" else 1 - b["sodium"]
    return weighed * part + sum(a["grams"] * a["base"] for a in stirred if a["metal"] == metal)


def by_the_engine(b: Batch) -> dict[str, float]:
    """The same by the engine."""
    from saponary.lye.figures import weigh
    from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water

    f = weigh(
        Formula(
            tuple(
                Oil(
                    o["id"], o["grams"], o["value"], o["value"] - o["below"], o["value"] + o["above"],
                    ester=o["ester"], density=o["density"],
                )
                for o in b["oils"]
            ),
            Alkali(b["sodium"], 1 - b["sodium"], *b["pure"]),
            b["superfat"],
            Water(*b["water"]),
            tuple(
                Liquid(
                    q["id"], q["grams"], q["water"], q["fat"], q["fat_value"], stage=q["stage"], acid=q["acid"]
                )
                for q in b["liquids"]
            ),
            tuple(
                Addition(
                    a["id"], a["grams"], a["stage"], acid=a["acid"], base=a["base"], water=a["water"],
                    base_most=a["most"], base_of=a["metal"], fat=a["fat"], fat_value=a["fat_value"],
                    cooled=a["cooled"],
                )
                for a in b["additions"]
            ),
        )
    )  # fmt: skip
    return {
        "naoh": f.weights.sodium_hydroxide, "koh": f.weights.potassium_hydroxide, "water": f.water.total,
        "plain": f.water.plain, "dissolved": f.lye_strength_dissolved, "superfat": f.superfat,
        "superfat with fat": f.superfat_with_liquids_fat, "worst low": f.bands.worst.low,
        "worst high": f.bands.worst.high, "glycerol": f.balance.glycerol,
        "water formed": f.balance.water_formed, "oil left": f.balance.oil_left, "soap": f.balance.soap,
        "batter": f.batter,
    }  # fmt: skip


def agree(seeds: range) -> None:
    for seed in seeds:
        made = batch(seed)
        ours, theirs = by_the_engine(made), reckon(made)
        assert ours.keys() == theirs.keys()
        for name, figure in theirs.items():
            assert ours[name] == pytest.approx(figure, rel=1e-5, abs=1e-7), (seed, name)


def test_two_hundred_random_batches_agree() -> None:
    agree(range(200))


@pytest.mark.slow
def test_two_thousand_random_batches_agree() -> None:
    agree(range(2000))
