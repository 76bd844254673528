"""Objects of a pydyf.PDF as pieces that can be written into another file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, cast

import pydyf

from saponary.outputs.grafted.fragment import KEYS, Hole, Piece
from saponary.outputs.grafted.internals import objects, reference

_KEYS_OF_PARENTS = frozenset({"StructParents", "StructParent"})


class Gathered:
    """Objects of a PDF in the order in which they are first named; `known` are numbers that have a hole's name."""

    def __init__(self, pdf: Any, known: Mapping[int, int]) -> None:
        self._objects = objects(pdf)
        self._places = dict(known)
        self._waiting: list[int] = []
        self.pieces: list[Piece] = []

    def place(self, number: int) -> int:
        """What belongs into a hole for an object of the PDF, which is gathered."""
        found = self._places.get(number)
        if found is None:
            found = self._places[number] = len(self._waiting)
            self._waiting.append(number)
        return found

    def all(self, numbers: Iterable[int]) -> list[int]:
        return [self.place(number) for number in numbers]

    def piece(self, value: Any) -> Piece:
        """A value that is no object of its own."""
        written = _Written(self)
        written.value(value)
        return Piece(bytes(written.data), tuple(written.holes))

    def gather(self) -> None:
        """Write all that was asked for, and all that is named in it."""
        for number in self._waiting:
            written = _Written(self)
            found = self._objects[number]
            stream = isinstance(found, pydyf.Stream)
            if stream:
                written.stream(found)
            else:
                written.value(found)
            self.pieces.append(Piece(bytes(written.data), tuple(written.holes), stream))


class _Written:
    def __init__(self, gathered: Gathered) -> None:
        self._gathered = gathered
        self.data = bytearray()
        self.holes: list[Hole] = []

    def value(self, value: Any) -> None:
        number = reference(value)
        if number is not None:
            self._hole(self._gathered.place(number))
        elif isinstance(value, pydyf.Dictionary):
            self.dictionary(cast("Any", value))
        elif isinstance(value, pydyf.Array):
            self._array(cast("Any", value))
        elif isinstance(value, ForHole):
            self._hole(value.place)
        else:
            self.data += pydyf.Array((value,)).data[1:-1]

    def _array(self, values: Iterable[Any]) -> None:
        self.data += b"["
        for at, value in enumerate(values):
            self.data += b" " if at else b""
            self.value(value)
        self.data += b"]"

    def dictionary(self, value: Mapping[str, Any]) -> None:
        self.data += b"<<"
        for key, item in value.items():
            self.data += b"/" + key.encode() + b" "
            if key in _KEYS_OF_PARENTS:
                self._hole(KEYS - item)
            else:
                self.value(item)
        self.data += b">>"

    def stream(self, value: Any) -> None:
        packed = bytes(pydyf.Stream(value.stream, {}, value.compress).data)
        head, _, body = packed.partition(b"\nstream\n")
        again = {"Length", "Filter"} if value.compress else {"Length"}
        self.dictionary({key: item for key, item in value.extra.items() if key not in again})
        del self.data[-2:]
        self.data += head[2:] + b"\nstream\n" + body

    def _hole(self, place: int) -> None:
        self.holes.append((len(self.data), place))


class ForHole:
    """Stands in a value where a hole is to be."""

    def __init__(self, place: int) -> None:
        self.place = place
