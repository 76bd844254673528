"""Field types of the schema: quantities and names, each with its reader and its JSON Schema.

A field type turns the text of a YAML scalar into a value, or says what was expected.
Everything arrives as text (see `reading/yaml_tree.py`), so that a lot `014` or a fingerprint
`123e45` is never taken for a number.
"""

from __future__ import annotations

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

from saponary.quantity.amounts import Amount
from saponary.quantity.units import LENGTH, MASS, VOLUME, Quantity, QuantityError
from saponary.reading.names import NAME_PATTERN
from saponary.reading.plain import is_map
from saponary.schema.described import into_schema
from saponary.schema.scalars import (
    read_any_amount,
    read_colour,
    read_cook_temperature,
    read_date,
    read_day,
    read_density,
    read_id,
    read_inside,
    read_iodine_value,
    read_length,
    read_liquid_amount,
    read_lye_temperature,
    read_mass,
    read_molar_mass,
    read_normality,
    read_oils_at,
    read_oils_temperature,
    read_part,
    read_positive_mass,
    read_rate,
    read_ratio,
    read_room_temperature,
    read_saponification_value,
    read_share,
    read_slice,
    read_superfat,
    read_temperature,
    read_titrant,
    read_uptake,
    read_volume,
)

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

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        """With the text of each key, for the editors that show it."""
        made = handler(schema)
        into_schema(cls, handler.resolve_ref_schema(made))
        return made


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


Mass = Annotated[Quantity, *_quantity(read_mass, "121.4 g", f"a weight: {', '.join(MASS)}")]
PositiveMass = Annotated[Quantity, *_quantity(read_positive_mass, "1000 g", "a weight above zero")]
Share = Annotated[Quantity, *_quantity(read_share, "40 %", "per cent or a fraction")]
Superfat = Annotated[Quantity, *_quantity(read_superfat, "5 %", "share of the oils left unsaponified")]
PartSize = Annotated[Quantity, *_quantity(read_part, "45 %", "per cent, fraction or weight")]
Ratio = Annotated[Quantity, *_quantity(read_ratio, "2.0", "parts of water to one of alkali", bare=True)]
AnyAmount = Annotated[Amount, *_quantity(read_any_amount, "2 % of oils", "weight, volume or rate")]
LiquidAmount = Annotated[
    Amount, *_quantity(read_liquid_amount, "25 % of water", "weight, volume, rate, or share of the water")
]
Length = Annotated[Quantity, *_quantity(read_length, "70 mm", f"a length: {', '.join(LENGTH)}")]
Volume = Annotated[Quantity, *_quantity(read_volume, "90 ml", f"a volume: {', '.join(VOLUME)}")]
Temperature = Annotated[Quantity, *_quantity(read_temperature, "38 °C", "a temperature")]
RoomTemperature = Annotated[Quantity, *_quantity(read_room_temperature, "18 °C", "a room's temperature")]
LyeTemperature = Annotated[Quantity, *_quantity(read_lye_temperature, "35 °C", "the lye's temperature")]
OilsTemperature = Annotated[Quantity, *_quantity(read_oils_temperature, "38 °C", "the oils' temperature")]
OilsAt = Annotated[Quantity, *_quantity(read_oils_at, "40 °C", "the oils' temperature")]
CookTemperature = Annotated[Quantity, *_quantity(read_cook_temperature, "85 °C", "the temperature of a pot")]
Slice = Annotated[Quantity, *_quantity(read_slice, "25 mm", "the thickness of a bar: mm, cm, in")]
Inside = Annotated[Quantity, *_quantity(read_inside, "70 mm", "an inner measure of a mould: mm, cm, in")]
SaponificationValue = Annotated[
    Quantity, *_quantity(read_saponification_value, "189.4 mg/g", "mg of KOH per g of oil", bare=True)
]
IodineValue = Annotated[
    Quantity, *_quantity(read_iodine_value, "82 g/100 g", "g of iodine per 100 g", bare=True)
]
Density = Annotated[Quantity, *_quantity(read_density, "0.91 g/ml", "g/ml")]
Uptake = Annotated[Quantity, *_quantity(read_uptake, "0.83 mmol/g", "mmol of hydroxide taken per g")]
MolarMass = Annotated[Quantity, *_quantity(read_molar_mass, "192.124 g/mol", "g/mol")]
Titrant = Annotated[Quantity, *_quantity(read_titrant, "1.2 ml", "the acid that was used, in ml")]
Normality = Annotated[
    Quantity, *_quantity(read_normality, "0.1 mol/l", "mol of acid groups per litre", bare=True)
]
Rate = Annotated[Quantity, *_quantity(read_rate, "8 g/kg", "grams per kg of oils")]
ShortText = Annotated[str, Field(max_length=300)]

Name = Annotated[
    str,
    BeforeValidator(reader(read_id)),
    WithJsonSchema({"type": "string", "pattern": NAME_PATTERN}),
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
