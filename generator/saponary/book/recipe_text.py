"""A recipe from the text of its file: front matter, then notes."""

from __future__ import annotations

from pathlib import PurePosixPath

from saponary.book import quotes
from saponary.book.figure import MAX_FIGURES
from saponary.book.recipe_file import RecipeFile
from saponary.reading import front_matter as front
from saponary.reading.findings import Finding, has_errors
from saponary.schema import validate as schema
from saponary.schema.recipe import Recipe


def parse_recipe(file: str, text: str) -> RecipeFile:
    """A recipe from its text: front matter, then notes. `file` is its path in the book."""
    recipe = RecipeFile(file, PurePosixPath(file).stem, text)
    if not front.read_into(recipe, "recipe", "begin with title: and oils:"):
        return recipe
    recipe.model, faults = schema.validate(Recipe, recipe.tree, file)
    recipe.findings += faults
    if quotes.braces(recipe) > MAX_FIGURES:
        place = recipe.place_at(recipe.body_start)
        message = f"the texts of this recipe open more than {MAX_FIGURES} braces"
        recipe.findings.append(Finding("reading", "error", place, message, "keep fewer figures in the text"))
    if has_errors(recipe.findings):
        recipe.model = None
    return recipe
