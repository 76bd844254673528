"""The command line: what it prints, what it returns, what it leaves alone."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from saponary.book.library import read_book
from saponary.build.proof import prove
from saponary.cli.main import main
from saponary.reading.files import Folder
from saponary.reading.yaml_tree import read_yaml
from support import BOOKS, PLAIN, REPOSITORY, write_book

KEYS = {
    "oils_g", "sodium_hydroxide_g", "potassium_hydroxide_g", "water_g", "plain_water_g", "liquids_water_g",
    "lye_strength_percent", "superfat_percent", "superfat_as_weighed_percent", "superfat_likely_percent",
    "superfat_worst_percent", "saponification_value_mg_per_g", "iodine_value_g_per_100g",
    "fatty_acids_percent", "batter_g", "batter_ml", "glycerol_g", "soap_g", "portions",
}  # fmt: skip
PORTION_KEYS = {
    "name", "oils_g", "sodium_hydroxide_g", "potassium_hydroxide_g", "water_g", "additions", "batter_g", "batter_ml",
}  # fmt: skip

EXAMPLE = """\
---
title: Three oils by plain arithmetic
oils: {total: 1000 g, parts: {soft: 50 %, lauric: 30 %, butter-fat: 20 %}}
lye: {sodium: {share: 60 %, purity: 100 %}, potassium: {share: 40 %, purity: 90 %}}
superfat: 6 %
water: {of-oils: 33 %}
liquids: [{what: dew, amount: 80 g}]
additions: [{what: citric-acid, amount: 2 % of oils}]
portions:
  - {name: one, share: 3/4}
  - {name: two, share: 25 %, additions: [{what: turmeric, amount: 4 g/kg}]}
---
"""
EXAMPLE_PANTRY = """\
oils:
  soft: {saponification-value: {value: 190 mg/g, range: [186 mg/g, 194 mg/g]}}
  lauric: {saponification-value: {value: 257 mg/g, range: [250 mg/g, 264 mg/g]}}
  butter-fat: {saponification-value: {value: 181 mg/g, range: [175 mg/g, 187 mg/g]}}
liquids: {dew: {water: 90 %, acid: 0 mmol/g}}
"""


class Yaml12(yaml.SafeLoader):
    """Editors read YAML 1.2, where `on` is a word and no truth value."""


Yaml12.yaml_implicit_resolvers = {
    first: [pair for pair in pairs if pair[0] != "tag:yaml.org,2002:bool" or first in "tTfF"]
    for first, pairs in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def proof_object(root: Path, capsys: pytest.CaptureFixture[str], expect: int = 0) -> dict:  # type: ignore[type-arg]
    assert main(["proof", str(root), "--format", "json"]) == expect
    return json.loads(capsys.readouterr().out)  # type: ignore[no-any-return]


def test_json_holds_every_key_with_the_figures_of_plain_arithmetic(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Worked by hand: molar masses NaOH 39.9971, KOH 56.1056, citric acid 192.124 (IUPAC weights)."""
    root = write_book(
        tmp_path, {"recipes/a.md": EXAMPLE, "pantry.yaml": EXAMPLE_PANTRY, "book.yaml": "scale-step: 1 g\n"}
    )
    said = proof_object(root, capsys)
    assert set(said) == {"book", "engine", "tables", "recipes", "findings"}
    (recipe,) = said["recipes"]
    assert set(recipe) == {"slug", "title", "status", "fingerprint", "figures"}
    figures = recipe["figures"]
    assert set(figures) >= KEYS
    demand = (500 * 190 + 300 * 257 + 200 * 181) / 1000 / 56.1056
    moles = 0.94 * demand + 3 * 20 / 192.124
    sodium, potassium = 0.6 * moles * 39.9971, 0.4 * moles * 56.1056 / 0.9
    assert figures["sodium_hydroxide_g"] == pytest.approx(sodium, rel=1e-5)
    assert figures["potassium_hydroxide_g"] == pytest.approx(potassium, rel=1e-5)
    assert figures["water_g"] == pytest.approx(330.0)
    assert figures["liquids_water_g"] == pytest.approx(72.0)
    assert figures["plain_water_g"] == pytest.approx(258.0)
    assert figures["superfat_percent"] == pytest.approx(6.0)
    assert figures["lye_strength_percent"] == pytest.approx(
        100 * (sodium + potassium) / (sodium + potassium + 330), rel=1e-5
    )
    spread = (500 * 4) ** 2 + (300 * 7) ** 2 + (200 * 6) ** 2
    low = 1 - 0.94 * demand / (demand - spread**0.5 / 1000 / 56.1056)
    assert figures["superfat_likely_percent"][0] == pytest.approx(100 * low, rel=1e-4)
    assert figures["saponification_value_mg_per_g"] == pytest.approx(208.3)
    one, two = figures["portions"]
    assert set(one) >= PORTION_KEYS
    assert one["oils_g"] == pytest.approx(750) and two["oils_g"] == pytest.approx(250)
    assert two["additions"] == [
        {"what": "citric-acid", "grams": pytest.approx(5.0)},
        {"what": "turmeric", "grams": pytest.approx(1.0)},
    ]
    assert one["batter_g"] + two["batter_g"] == pytest.approx(figures["batter_g"])


@pytest.mark.parametrize("name", BOOKS)
def test_both_books_proof_clean(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    said = proof_object(BOOKS[name], capsys)
    assert [f for f in said["findings"] if f["severity"] == "error"] == []
    assert len(said["recipes"]) == len(list((BOOKS[name] / "recipes").glob("*.md")))


def test_sarif_names_rule_file_and_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN.replace("5.0 %", "5.1 %")})
    assert main(["proof", str(root), "--format", "sarif"]) == 1
    said = json.loads(capsys.readouterr().out)
    assert said["version"] == "2.1.0"
    (run,) = said["runs"]
    result = next(r for r in run["results"] if r["ruleId"] == "stale")
    place = result["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "recipes/a.md"
    assert place["region"] == {"startLine": 12, "startColumn": 13}
    assert result["level"] == "error"


@pytest.mark.parametrize("part", ["recipe", "book", "pantry", "class"])
def test_the_schema_is_valid_and_accepts_what_the_books_hold(
    part: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """JSON Schema 2020-12, by the jsonschema library."""
    import jsonschema

    assert main(["schema", part]) == 0
    schema = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    if part == "recipe":
        for root in BOOKS.values():
            for recipe in read_book(Folder(root)).recipes:
                front = recipe.text[: recipe.body_start].strip().strip("-")
                data = json.loads(json.dumps(yaml.load(front, Loader=Yaml12), default=str))
                assert [f"{e.json_path}: {e.message}" for e in validator.iter_errors(data)] == [], recipe.file
        assert list(validator.iter_errors({"title": "x", "oils": {"parts": {}}, "supperfat": "5 %"}))


@pytest.mark.slow
def test_begin_starts_a_book_that_builds(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "my_book"
    assert main(["begin", str(folder)]) == 0
    assert main(["build", str(folder)]) == 0
    assert (folder / "site" / "index.html").is_file()
    before = {p: p.read_bytes() for p in folder.rglob("*") if p.is_file()}
    assert main(["begin", str(folder)]) == 2
    assert "nothing was written" in capsys.readouterr().err
    assert {p: p.read_bytes() for p in folder.rglob("*") if p.is_file()} == before


@pytest.mark.parametrize(
    "argv",
    [
        ["proof", "/nowhere/at/all"],
        ["build", "/etc"],
        ["sign", "no-such-recipe", "--book", str(BOOKS["demo"])],
        ["rules", "no-such-rule"],
        ["prove"],
        [],
        ["proof", "--form", "json"],
    ],
)
def test_misuse_is_exit_2_and_a_clear_line(argv: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(argv) == 2
    said = capsys.readouterr()
    assert said.err.strip() and "Traceback" not in said.err + said.out


def test_the_module_is_the_command() -> None:
    said = subprocess.run([sys.executable, "-m", "saponary", "--version"], capture_output=True, text=True)
    assert (said.returncode, said.stderr) == (0, "") and said.stdout.startswith("saponary ")


def test_strict_lets_warnings_stop(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    assert main(["proof", str(root)]) == 0
    assert main(["proof", str(root), "--strict"]) == 1


@pytest.mark.slow
def test_drafts_stay_out_of_the_site(tmp_path: Path) -> None:
    draft = PLAIN.replace("signed:\n  superfat: 5.0 %\n", "").replace("Plain Bar", "Secret Draft")
    root = write_book(tmp_path, {"recipes/plain.md": PLAIN, "recipes/draft.md": draft})
    assert main(["build", str(root)]) == 0
    for path in (root / "site").rglob("*"):
        assert path.is_dir() or b"Secret Draft" not in path.read_bytes(), path


@pytest.mark.slow
def test_a_build_is_the_same_bytes_twice(tmp_path: Path) -> None:
    sites = []
    for turn in ("one", "two"):
        root = tmp_path / turn
        command = [sys.executable, "-m", "saponary", "begin", str(root / "book")]
        environment = {
            "PYTHONPATH": str(REPOSITORY / "generator"),
            "PYTHONHASHSEED": (turn[-1:] == "o" and "1") or "2",
        }
        subprocess.run(command, check=True, env=environment, stdout=subprocess.DEVNULL)
        command[-2:] = ["build", str(root / "book")]
        subprocess.run(command, check=True, env=environment, stdout=subprocess.DEVNULL)
        site = root / "book" / "site"
        sites.append({p.relative_to(site): p.read_bytes() for p in sorted(site.rglob("*")) if p.is_file()})
    assert sites[0] == sites[1]


@pytest.mark.slow
def test_output_survives_a_closed_pipe() -> None:
    command = f"{sys.executable} -m saponary.cli schema | head -1"
    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", command],
        env={"PYTHONPATH": str(REPOSITORY / "generator")},
        capture_output=True,
        text=True,
    )
    assert "Traceback" not in done.stderr


def test_yaml_reader_agrees_with_the_library_on_the_books() -> None:
    """The tree built from events holds the same text as PyYAML's own base loader."""
    for root in BOOKS.values():
        for recipe in read_book(Folder(root)).recipes:
            front = recipe.text[4 : recipe.body_start].rsplit("---", 1)[0]
            tree, findings = read_yaml(front, recipe.file)
            assert findings == []
            assert tree.data == yaml.load(front, Loader=yaml.BaseLoader), recipe.file


@pytest.mark.parametrize("milk", [0, 20, 60, 80])
def test_a_mould_is_filled_whatever_stands_at_a_fixed_weight(milk: int, tmp_path: Path) -> None:
    """400 ml asked for are 400 ml of batter, though the milk does not grow with the oils."""
    shelf = "moulds: {m: {cavities: {count: 4, volume: 100 ml}}}\n"
    text = PLAIN.replace("  total: 1000 g\n", "  fill: {mould: m, to: 100 %}\n")
    liquids = f"liquids: [{{what: goat-milk, amount: {milk} g}}]\n" if milk else ""
    text = text.replace("signed:\n", liquids + "signed:\n")
    (one,) = prove(write_book(tmp_path, {"pantry.yaml": shelf, "recipes/a.md": text})).recipes
    assert one.computed.figures.batter_ml == pytest.approx(400, rel=1e-9)
