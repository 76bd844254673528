"""Field types of the schema: quantities and names, each with its reader and its JSON Schema.

A field type turns the text of a YAML scalar into a value, or says what was expected.
Everything arrives as text (see `reading/yaml_tree.py`), so that a lot `014` or a fingerprint
`123e45` is never taken for a number.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Annotated, Any, TypeVar

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    PlainSerializer,
    PlainValidator,
    SerializerFunctionWrapHandler,
    WithJsonSchema,
)
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from saponary.quantity.units import (
    LENGTH,
    MASS,
    TEMPERATURE,
    VOLUME,
    Amount,
    Quantity,
    QuantityError,
    parse,
    parse_amount,
)
from saponary.reading.plain import is_map

T = TypeVar("T")


def kebab(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


class Part(BaseModel):
    """Base of every model of the schema: unknown keys refused, keys in kebab-case."""

    model_config = ConfigDict(
        extra="forbid",
        alias_generator=kebab,
        populate_by_name=False,
        frozen=True,
        arbitrary_types_allowed=True,
        str_strip_whitespace=True,
        defer_build=True,  # a command builds the models it reads by, and no others
    )


def problem(message: str, hint: str) -> PydanticCustomError:
    """An error that carries a hint through pydantic."""
    return PydanticCustomError("saponary", "{message}", {"message": message, "hint": hint})


def reader(read: Callable[[object], T]) -> Callable[[object], T]:
    def wrapped(value: object) -> T:
        if isinstance(value, (Quantity, Amount, date, int)):
            return value  # type: ignore[return-value]
        try:
            return read(value)
        except QuantityError as error:
            raise problem(str(error), error.hint) from error

    return wrapped


def _bounded(quantity: Quantity, low: float, high: float, measure: float, says: str) -> Quantity:
    if not low <= measure <= high:
        raise QuantityError(f"{quantity.text!r} is outside what is possible here", says)
    return quantity


def read_mass(value: object) -> Quantity:
    q = parse(value, units=tuple(MASS), example="1000 g")
    return _bounded(q, 0.0, 1e7, q.grams, "a weight from 0 to 10 000 kg")


def read_positive_mass(value: object) -> Quantity:
    q = read_mass(value)
    if q.value <= 0:
        raise QuantityError(f"{q.text!r} is no weight", "a weight above zero, such as 1000 g")
    return _bounded(q, 1e-6, 1e7, q.grams, "a weight from a microgram to 10 000 kg")


def read_share(value: object) -> Quantity:
    q = parse(value, units=("%", ""), example="45 % or 2/5")
    if q.unit == "" and q.value > 1:
        raise QuantityError(
            f"{q.text!r} is more than the whole", f"write {q.text.strip()} % if per cent is meant"
        )
    if 0 < q.fraction < 1e-6:
        raise QuantityError(f"{q.text!r} is too little to weigh", "a share of at least 0.0001 %, or 0 %")
    return _bounded(q, 0.0, 1.0, q.fraction, "a share from 0 % to 100 %")


def read_superfat(value: object) -> Quantity:
    q = parse(value, units=("%",), example="5 %")
    return _bounded(q, -0.5, 0.9, q.fraction, "a superfat such as 5 %")


def read_part(value: object) -> Quantity:
    q = parse(value, units=("%", "", *MASS), example="45 %, 9/20 or 450 g")
    if q.unit == "" and q.value > 1:
        raise QuantityError(f"{q.text!r} has no unit", f"write {q.text.strip()} % or {q.text.strip()} g")
    if q.value < 0:
        raise QuantityError(f"{q.text!r} is less than nothing", "a share or weight of 0 or more")
    if q.unit in MASS:
        return _bounded(q, 0.0, 1e7, q.grams, "a weight from 0 to 10 000 kg")
    return _bounded(q, 0.0, 1.0, q.fraction, "a share from 0 % to 100 %")


def read_ratio(value: object) -> Quantity:
    q = parse(value, units=("",), example="2.0")
    return _bounded(q, 0.1, 20.0, q.number, "water to lye, such as 2.0, from 0.1 to 20")


def read_any_amount(value: object) -> Amount:
    amount = parse_amount(value)
    if amount.quantity.value < 0:
        raise QuantityError(f"{amount.text!r} is less than nothing", "an amount of 0 or more")
    size = amount.quantity.millilitres if amount.is_volume else amount.quantity.grams
    per = amount.per_grams_of_oil
    if size > 1e7 or (per is not None and size > 100 * per):
        raise QuantityError(f"{amount.text!r} is outside what is possible here", "an amount a bench can hold")
    return amount


def read_length(value: object) -> Quantity:
    q = parse(value, units=tuple(LENGTH), example="70 mm")
    return _bounded(q, 0.01, 1e5, q.millimetres, "a length from 0.01 mm to 100 m")


def read_volume(value: object) -> Quantity:
    q = parse(value, units=tuple(VOLUME), example="90 ml")
    return _bounded(q, 0.01, 1e7, q.millilitres, "a volume above zero")


def read_temperature(value: object) -> Quantity:
    q = parse(value, units=TEMPERATURE, example="38 °C")
    return _bounded(q, -50.0, 200.0, q.celsius, "a temperature from -50 °C to 200 °C")


def read_saponification_value(value: object) -> Quantity:
    q = parse(value, units=("mg/g", ""), example="189.4 mg/g")
    return _bounded(q, 1.0, 700.0, q.number, "mg of KOH per g, from 1 to 700")


def read_iodine_value(value: object) -> Quantity:
    q = parse(value, units=("g/100 g", "g/100g", ""), example="82 g/100 g")
    return _bounded(q, 0.0, 400.0, q.number, "g of iodine per 100 g, from 0 to 400")


def read_density(value: object) -> Quantity:
    q = parse(value, units=("g/ml", "g/mL", "g/cm³", "g/cm3"), example="0.91 g/ml")
    return _bounded(q, 0.01, 10.0, q.number, "a density from 0.01 to 10 g/ml")


def read_uptake(value: object) -> Quantity:
    q = parse(value, units=("mmol/g",), example="0.83 mmol/g")
    return _bounded(q, 0.0, 50.0, q.number, "mmol of hydroxide per g, from 0 to 50")


def read_molar_mass(value: object) -> Quantity:
    q = parse(value, units=("g/mol",), example="192.124 g/mol")
    return _bounded(q, 10.0, 5000.0, q.number, "a molar mass from 10 to 5000 g/mol")


def read_rate(value: object) -> Quantity:
    q = parse(value, units=("g/kg",), example="8 g/kg")
    return _bounded(q, 0.0, 1000.0, q.number, "grams per kilogram of oils, from 0 to 1000")


def read_date(value: object) -> date:
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d{2}-\d{2}", value, re.ASCII):
        try:
            return date.fromisoformat(value)
        except ValueError as error:
            raise QuantityError(f"{value!r} is not in the calendar", "write a day as 2026-03-02") from error
    raise QuantityError("a date is needed here", "write it as 2026-03-02")


def read_day(value: object) -> int:
    if not isinstance(value, str) or not re.fullmatch(r"0|[1-9]\d{0,3}", value, re.ASCII):
        raise QuantityError("a count of days is needed here", "days after the pour, such as 14")
    return int(value)


def read_id(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", value):
        shown = repr(value[:40]) if isinstance(value, str) else "this"
        raise QuantityError(
            f"{shown} is not a name", "small letters, digits and single hyphens, such as shea-butter"
        )
    if len(value) > 80:
        raise QuantityError("this name is too long", "at most 80 characters")
    return value


def read_colour(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"#[0-9a-fA-F]{6}", value):
        raise QuantityError("this is not a colour", 'write it as "#a4503c", in quotes')
    return value.lower()


_JSON_TYPES: Any = {False: "string", True: ["string", "number"]}


def _as_written(value: Quantity | Amount) -> str:
    return " ".join(value.text.split())


def _quantity(read: Callable[[object], Any], example: str, description: str, bare: bool = False) -> Any:
    """A quantity field; `bare` where a number without a unit has a meaning."""
    return (
        PlainValidator(reader(read)),
        PlainSerializer(_as_written),
        WithJsonSchema({"type": _JSON_TYPES[bare], "examples": [example], "description": description}),
    )


Mass = Annotated[Quantity, *_quantity(read_mass, "121.4 g", "a weight: g, kg, oz, lb")]
PositiveMass = Annotated[Quantity, *_quantity(read_positive_mass, "1000 g", "a weight above zero")]
Share = Annotated[Quantity, *_quantity(read_share, "40 %", "per cent or a fraction")]
Superfat = Annotated[Quantity, *_quantity(read_superfat, "5 %", "share of the oils left unsaponified")]
PartSize = Annotated[Quantity, *_quantity(read_part, "45 %", "per cent, fraction or weight")]
Ratio = Annotated[Quantity, *_quantity(read_ratio, "2.0", "parts of water to one of alkali", bare=True)]
AnyAmount = Annotated[Amount, *_quantity(read_any_amount, "2 % of oils", "weight, volume or rate")]
Length = Annotated[Quantity, *_quantity(read_length, "70 mm", "a length: mm, cm, in")]
Volume = Annotated[Quantity, *_quantity(read_volume, "90 ml", "a volume: ml, l, tsp, tbsp")]
Temperature = Annotated[Quantity, *_quantity(read_temperature, "38 °C", "a temperature")]
SaponificationValue = Annotated[
    Quantity, *_quantity(read_saponification_value, "189.4 mg/g", "mg of KOH per g of oil", bare=True)
]
IodineValue = Annotated[
    Quantity, *_quantity(read_iodine_value, "82 g/100 g", "g of iodine per 100 g", bare=True)
]
Density = Annotated[Quantity, *_quantity(read_density, "0.91 g/ml", "g/ml")]
Uptake = Annotated[Quantity, *_quantity(read_uptake, "0.83 mmol/g", "mmol of hydroxide taken per g")]
MolarMass = Annotated[Quantity, *_quantity(read_molar_mass, "192.124 g/mol", "g/mol")]
Rate = Annotated[Quantity, *_quantity(read_rate, "8 g/kg", "grams per kg of oils")]
ShortText = Annotated[str, Field(max_length=300)]

Name = Annotated[
    str,
    BeforeValidator(reader(read_id)),
    WithJsonSchema({"type": "string", "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$"}),
]
Date = Annotated[
    date, PlainValidator(reader(read_date)), WithJsonSchema({"type": "string", "format": "date"})
]
Day = Annotated[
    int, PlainValidator(reader(read_day)), WithJsonSchema({"type": "integer", "minimum": 0, "maximum": 9999})
]
Colour = Annotated[
    str,
    BeforeValidator(reader(read_colour)),
    WithJsonSchema({"type": "string", "pattern": "^#[0-9a-fA-F]{6}$"}),
]


class _Shorthand:
    """Lets a bare scalar stand for a map with one key, in values and in the JSON Schema."""

    def __init__(self, key: str) -> None:
        self.key = key

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def spread(value: object) -> object:
            return {self.key: value} if isinstance(value, str) else value

        def gathered(value: object, dump: SerializerFunctionWrapHandler) -> object:
            said: object = dump(value)
            return said[self.key] if is_map(said) and said.keys() == {self.key} else said

        return core_schema.no_info_before_validator_function(
            spread,
            handler(source),
            serialization=core_schema.wrap_serializer_function_ser_schema(gathered),
        )

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        whole = handler(schema)
        part = handler.resolve_ref_schema(whole)["properties"][self.key]
        return {"anyOf": [{k: v for k, v in part.items() if k != "default"}, whole]}


def shorthand(key: str) -> _Shorthand:
    """`olive: 45 %` for `olive: {share: 45 %}`: a bare scalar stands for the map's one key."""
    return _Shorthand(key)


class _OneOrMany:
    """Lets a single map stand for a list of one, in values and in the JSON Schema."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def listed(value: object) -> object:
            return [value] if is_map(value) else value

        return core_schema.no_info_before_validator_function(listed, handler(source))

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        many = handler(schema)
        return {"anyOf": [many["items"], many]}


def one_or_many() -> _OneOrMany:
    """`{…}` for `[{…}]`."""
    return _OneOrMany()
