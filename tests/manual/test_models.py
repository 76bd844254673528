"""The schemas that travel with the program are those of its models."""

from __future__ import annotations

import pytest

from saponary.manual.keys import PLACES, kept
from saponary.manual.models import MODELS, made


@pytest.mark.parametrize("file", MODELS)
def test_a_kept_schema_is_what_its_model_says(file: str) -> None:
    assert kept(file).read_text(encoding="utf-8") == made(file), (
        "run `python -m saponary.manual.models`, look at what has changed, and commit it"
    )


def test_every_kind_of_file_has_a_model_and_a_schema() -> None:
    assert list(MODELS) == list(PLACES)
    assert {one.name for one in kept("recipe").parent.iterdir()} == {f"{file}.json" for file in MODELS}
