"""The site: view models in finished strings, and one page kind a file."""

from saponary.pages.compose import compose, sheets
from saponary.pages.kind import Desk, PageKind, Sheet
from saponary.pages.site import Output, PhotoSet, RecipeInput, SiteInput

__all__ = ["Desk", "Output", "PageKind", "PhotoSet", "RecipeInput", "Sheet", "SiteInput", "compose", "sheets"]
