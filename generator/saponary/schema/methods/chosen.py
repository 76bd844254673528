"""The name of a method as a recipe chooses it: one of those listed."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, WithJsonSchema

from saponary.reading.alike import nearest
from saponary.reading.tree import shown
from saponary.schema.fields import problem
from saponary.schema.methods import BY_NAME


def _known_method(name: object) -> str:
    if not isinstance(name, str) or name not in BY_NAME:
        close = nearest(name, BY_NAME) if isinstance(name, str) else None
        guess = f"did you mean {close!r}? " if close is not None else ""
        raise problem(f"{shown(name)} is not a method known here", f"{guess}expected {' or '.join(BY_NAME)}")
    return name


MethodName = Annotated[str, BeforeValidator(_known_method), WithJsonSchema({"enum": list(BY_NAME)})]
