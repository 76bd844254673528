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
        "superfat": rng.choice([0.0, 0.05, 0.2, rng.uniform(0, 0.4), rng.uniform(-0.05, 0.0)]),
        "stock": (rng.choice([None, 0.5, rng.uniform(0.3, 0.52)]), rng.choice([None, 0.45])),
        "step": rng.choice([0.1, 1.0, 5.0]),
        "cured water": rng.choice([0.05, 0.1, 0.15]),
        "thinned to": rng.uniform(0.1, 0.45),
        "acid takes": rng.choice([0.0156, 0.0143]),
        "titration": (rng.uniform(0, 20), rng.choice([0.1, 0.5]), rng.uniform(1, 20)),
        "prices": {f"oil-{i}": rng.uniform(1, 30) for i in range(rng.randint(0, 6))},
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
    fats = sum(g for g, _ in fat)
    return out | _on_the_scale(b, out, there) | _made_to(b, out, sour, fats) | _sold(b, out)


def _on_the_scale(b: Batch, out: dict[str, float], there: float) -> dict[str, float]:
    """What a stock weighs and the water beside it, the superfat of rounded weights, the smallest batch."""
    step, found = b["step"], {}
    alkali = {
        "naoh": (out["naoh"], b["stock"][0], b["pure"][0], NAOH),
        "koh": (out["koh"], b["stock"][1], b["pure"][1], KOH),
    }
    in_stocks, rounded, half = 0.0, 0.0, 0.0
    weighed = []
    for name, (grams, strength, pure, molar) in alkali.items():
        content = strength or 1.0
        found[f"{name} stock"] = grams / strength if strength else 0.0
        in_stocks += grams / content - grams
        rounded += _to(grams / content, step) * content * pure / molar
        half += content * pure / molar if grams > 0 else 0.0
        weighed.append(grams / content)
    found["beside"] = out["plain"] - in_stocks
    stirred = [a for a in b["additions"] if a["stage"] != "pour"]
    for x in stirred + b["liquids"]:
        change = x.get("base", 0.0) - x["acid"]
        rounded += _to(x["grams"], step) * change
        half += abs(change)
    asked = sum(_to(o["grams"], step) * o["value"] for o in b["oils"]) / 1000 / KOH
    found["as weighed"] = 1 - rounded / asked if asked > 0 else -1.0
    half += (1 - out["superfat"]) * sum(o["value"] for o in b["oils"]) / 1000 / KOH
    whole, need = (
        sum(o["grams"] for o in b["oils"]),
        sum(o["grams"] * o["value"] for o in b["oils"]) / 1000 / KOH,
    )
    by_superfat = whole * half * step / 2 / need / 0.01
    weighed += [found["beside"], *(x["grams"] for x in b["oils"] + b["liquids"] + b["additions"])]
    found["smallest"] = max(by_superfat, whole * 10 * step / min(w for w in weighed if w > 0))
    return found


def _to(grams: float, step: float) -> float:
    """To the nearest step of a scale."""
    return int(grams / step + 0.5) * step


def _made_to(b: Batch, out: dict[str, float], sour: float, fats: float) -> dict[str, float]:
    """Fatty matter by splitting every soap again, the water that thins it, the cured loaf, acid and titration."""
    need = {o["id"]: o["grams"] * o["value"] / 1000 / KOH for o in b["oils"]}
    taken = sum(need.values()) * min(1.0, 1 - out["superfat"])
    acids = sum(need[o["id"]] for o in b["oils"] if o["ester"] == "acid")
    others = sum(need.values()) - acids
    split = max(0.0, taken - acids) / others if others > 0 else 0.0
    matter = fats
    for o in b["oils"]:
        n = split * need[o["id"]]
        matter += o["grams"]
        if o["ester"] != "acid":
            matter += n * WATER
        if o["ester"] == "triglyceride":
            matter -= n / 3 * GLYCEROL
    placed = [a for a in b["additions"] if a["stage"] == "pour"]
    loaf = out["batter"] + sum(a["grams"] for a in placed)
    wet = out["water"] + sum(a["grams"] * a["water"] for a in placed) + out["water formed"] + sour * WATER
    v, n, m = b["titration"]
    return {
        "fatty matter": matter,
        "thinning": matter / b["thinned to"] - out["batter"],
        "cured": min(loaf, (loaf - wet) / (1 - b["cured water"])),
        "acid": max(0.0, -out["superfat"]) * sum(need.values()) / b["acid takes"],
        "% naoh": v * n * 39.9971 / (10 * m),
        "% koh": v * n * 56.1056 / (10 * m),
    }


def _sold(b: Batch, out: dict[str, float]) -> dict[str, float]:
    """What the oils cost that have a price."""
    return {"cost": sum(o["grams"] * b["prices"].get(o["id"], 0.0) for o in b["oils"]) / 1000}


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

    formula = formula_of(b)
    f = weigh(formula)
    return {
        "naoh": f.weights.sodium_hydroxide, "koh": f.weights.potassium_hydroxide, "water": f.water.total,
        "plain": f.water.plain, "dissolved": f.lye_strength_dissolved, "superfat": f.superfat,
        "superfat with fat": f.superfat_with_liquids_fat, "worst low": f.bands.worst.low,
        "worst high": f.bands.worst.high, "glycerol": f.balance.glycerol,
        "water formed": f.balance.water_formed, "oil left": f.balance.oil_left, "soap": f.balance.soap,
        "batter": f.batter, "as weighed": f.superfat_as_weighed,
    } | makers_figures(b, formula, f)  # fmt: skip


def formula_of(b: Batch) -> Any:
    from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Stock, Water

    return Formula(
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
        scale_step=b["step"],
        stock=Stock(*b["stock"]),
    )  # fmt: skip


def makers_figures(b: Batch, formula: Any, f: Any) -> dict[str, float]:
    from saponary.lye.alkali import demand
    from saponary.lye.bar_weight import kept_by_balance
    from saponary.lye.cost import cost
    from saponary.lye.dilution import acid_for, dilution, total_fatty_matter
    from saponary.lye.smallest import smallest
    from saponary.lye.stock import from_stock
    from saponary.lye.titration import Titration

    drawn = from_stock(f.weights, f.water.plain, formula.stock)
    matter = total_fatty_matter(formula, f)
    return {
        "naoh stock": drawn.sodium,
        "koh stock": drawn.potassium,
        "beside": drawn.beside,
        "smallest": smallest(formula, f).oils,
        "fatty matter": matter,
        "thinning": dilution(matter, f.batter, b["thinned to"]).water,
        "cured": kept_by_balance(f, b["cured water"]).cured(f.loaf),
        "acid": acid_for(-f.superfat * demand(formula.oils), b["acid takes"]),
        "% naoh": 100 * Titration(*b["titration"]).free_caustic,
        "% koh": 100 * Titration(*b["titration"], metal="potassium").free_caustic,
        "cost": cost(formula, f.weights, b["prices"]).batch,
    }


def agree(seeds: range) -> None:
    for seed in seeds:
        made = batch(seed)
        ours, theirs = by_the_engine(made), reckon(made)
        assert ours.keys() == theirs.keys()
        for name, figure in theirs.items():
            assert ours[name] == pytest.approx(figure, rel=1e-5, abs=1e-7), (seed, name)


def test_a_hundred_random_batches_agree() -> None:
    agree(range(100))


@pytest.mark.slow
def test_two_thousand_random_batches_agree() -> None:
    agree(range(2000))
