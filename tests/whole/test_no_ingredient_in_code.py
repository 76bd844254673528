"""No id of an ingredient stands in the code: what is special about one is a field of its entry."""

from __future__ import annotations

import ast

from saponary.pantry.standard import standard
from source import MODULES, nodes, where

ALLOWED = {
    ("label/names.py", "salt"),  # the kind of a part of the mass balance
    ("lye/contents.py", "salt"),
    ("pantry/make.py", "salt"),  # kinds of additions
    ("pantry/make.py", "sugar"),
    ("pantry/own_checks.py", "salt"),
    ("pantry/own.py", "soap-scrap"),  # what a `scraps:` entry of the pantry is like
    ("schema/methods/cream.py", "cream"),  # the name of a method
    ("schema/ingredient.py", "sesame"),  # food allergens
    ("schema/ingredient.py", "peanut"),
    ("views/colour_words.py", "cream"),  # names of colours
    ("views/colour_words.py", "olive"),
}


def test_no_ingredient_is_named_in_code() -> None:
    shelf = standard()
    ids = {*shelf.oils, *shelf.liquids, *shelf.additions}
    constants = [(where(path), node.value) for path in MODULES for node in nodes(path, ast.Constant)]
    found = {(module, value) for module, value in constants if isinstance(value, str) and value in ids}
    assert sorted(found - ALLOWED) == []
    assert sorted(ALLOWED - found) == []
