"""Every finding names a listed rule: read from the source itself, and from what the books give.

That what bad files give is listed too is held beside them, in tests/bad.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from saponary.checks import made_elsewhere
from saponary.checks.rules import RULES
from source import MODULES, nodes, tree, where
from support import BOOKS, assert_listed, proof_of

KINDS = {rule.name: rule.kinds for rule in RULES}
PASSED_ON = {
    "book/computed.py": "finding",
    "book/records.py": "finding",
    "reading/reporter.py": "add",
}
"""Where a finding is made under a name that its caller gives: a module, and its function."""


def _names(path: Path) -> Iterator[tuple[int, str]]:
    """The rule's name in each call that makes a finding, or a reporter of findings."""
    constants = {
        target.id: node.value.value
        for node in tree(path).body
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant)
        for target in node.targets
        if isinstance(target, ast.Name)
    }
    for node in nodes(path, ast.Call):
        name = _rule(node)
        if name is not None:
            yield node.lineno, _said(name, constants, path.stem, where(path))


def _rule(call: ast.Call) -> ast.expr | None:
    made = call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")
    at = {"Finding": 0, "finding": 0, "Reporter": 2}.get(made)
    return call.args[at] if at is not None else None


def _said(name: ast.expr, constants: dict[str, object], stem: str, module: str) -> str:
    if isinstance(name, ast.Constant):
        return str(name.value)
    if isinstance(name, ast.Name) and name.id in constants:
        return str(constants[name.id])
    if isinstance(name, ast.Attribute) and name.attr == "name" and isinstance(name.value, ast.Name):
        if name.value.id == "RULE":
            return stem.replace("_", "-")
        return str(getattr(made_elsewhere, name.value.id).name)
    assert module in PASSED_ON, f"{module}:{name.lineno}: name the rule plainly"
    return next(iter(KINDS))


def test_a_finding_is_made_under_a_listed_name() -> None:
    made = [(f"{where(path)}:{line}", name) for path in MODULES for line, name in _names(path)]
    assert [f"{at}: no {name!r} in checks/rules.py" for at, name in made if name not in KINDS] == []


def test_names_are_found_in_the_source() -> None:
    found = {name for path in MODULES for _, name in _names(path)}
    assert set(KINDS) - found == set(), "a rule that nothing can find"


@pytest.mark.parametrize("book", BOOKS)
def test_what_the_books_give_is_listed(book: str) -> None:
    assert_listed(proof_of(book).findings)


def test_none_but_that_of_an_unnamed_ingredient_can_be_waived() -> None:
    rules = [rule for rule in RULES if rule.recipe is None and rule.book is None]
    assert {rule.name for rule in rules if rule.waivable} <= {"unnamed-ingredient"}
