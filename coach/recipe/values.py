"""What one value of a recipe file may be, for pydantic to check and for the JSON Schema to tell."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Annotated

from pydantic import (
    AfterValidator,
    BeforeValidator,
    Field,
    StringConstraints,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WithJsonSchema,
)
from pydantic_core import PydanticCustomError

from coach.forms import kinds
from coach.metals.quenches import QUENCHES
from coach.operations import operations
from coach.operations.does import HeatKind
from coach.operations.gauges import GAUGES
from coach.operations.measures import read_length_or_none
from coach.quantities import SizeError, read_length_mm, read_share, read_temperature_c
from coach.recipe import words
from coach.recipe.shapes import bar_kinds
from coach.recipe.sizes import (
    amount_reader,
    limits_reader,
    read_heats,
    read_loss,
    read_share_or_none,
)


def reads(read: Callable[[str, str, str], object]) -> AfterValidator:
    """The check that a reader takes a text; it is given the text, its key and the file's unit."""

    def taken(text: str, info: ValidationInfo) -> str:
        unit = info.context["unit"] if info.context else "mm"
        try:
            read(text.strip(), info.field_name or "", unit)
        except SizeError as error:
            raise PydanticCustomError("size", "{why}", {"why": words.clause(error)}) from None
        return text

    return AfterValidator(taken)


def one_of(kind: str, known: Iterable[str]) -> AfterValidator:
    """The check that a text is one of the trade's words, whatever its blanks, hyphens and capitals."""
    allowed = tuple(known)
    spelt = {one.lower() for one in allowed}

    def taken(text: str) -> str:
        if words.word(text) not in spelt:
            why = f"{words.echo(text)} is no {kind}: {words.hint(words.word(text), allowed)}"
            raise PydanticCustomError("word", "{why}", {"why": why})
        return text

    return AfterValidator(taken)


def enum_of(known: Iterable[object]) -> WithJsonSchema:
    """What the JSON Schema says of one of these."""
    return WithJsonSchema({"enum": list(known)})


def _as_list(told: object) -> object:
    return [told] if isinstance(told, str) else told


def extras() -> Mapping[str, str]:
    """What an operation can have measured that is no size of a form: name -> its kind."""
    return {name: kind for todo in operations().values() for name, kind in todo.EXTRAS.items()}


def amounts() -> Mapping[str, str]:
    """What a step can state that its operation takes: name -> length or share."""
    return {name: kind for todo in operations().values() for name, kind in todo.AMOUNTS.items()}


def _read_size(text: str, name: str, unit: str) -> object:
    return limits_reader(name, extras().get(name, "length"), unit)(text)


def _read_amount(text: str, name: str, unit: str) -> object:
    return amount_reader(amounts()[name], unit)(text)


def _heats(told: object) -> object:
    """One number of heats, or names of heats with numbers, which are read with the step they belong to."""
    if isinstance(told, str):
        try:
            read_heats(told.strip())
        except SizeError as error:
            raise PydanticCustomError("size", "{why}", {"why": words.clause(error)}) from None
    return told


def heat_names() -> tuple[str, ...]:
    """Every name that some operation lets a heat have."""
    return tuple(dict.fromkeys(name for todo in operations().values() for name in todo.HEAT_NAMES))


def model_or_word(told: object, model: ValidatorFunctionWrapHandler, word: str, why: str) -> object:
    """What a model makes of names and values; one word may stand in their place."""
    if not isinstance(told, str):
        return model(told)
    if words.word(told) == word:
        return None
    raise PydanticCustomError("word", "{why}", {"why": why})


Filled = StringConstraints(min_length=1)
_NUMBER = WithJsonSchema({"type": ["string", "number"]})
_WHOLE = {"type": "integer", "minimum": 0, "maximum": 99}
_TEXTS = WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]})

_YES_NO = enum_of(("yes", "no", True, False))

Line = Annotated[str, StringConstraints(min_length=1, max_length=200)]
Prose = Annotated[str, StringConstraints(min_length=1, max_length=4000)]
Lines = Annotated[list[Line], BeforeValidator(_as_list), Field(max_length=100), _TEXTS]
Proses = Annotated[list[Prose], BeforeValidator(_as_list), Field(max_length=100), _TEXTS]
Size = Annotated[str, Filled, reads(_read_size), _NUMBER]
Length = Annotated[str, Filled, reads(lambda text, _, unit: read_length_mm(text, unit)), _NUMBER]
LengthOrNone = Annotated[str, Filled, reads(lambda text, _, unit: read_length_or_none(text, unit)), _NUMBER]
Share = Annotated[str, Filled, reads(lambda text, *_: read_share(text))]
ShareOrNone = Annotated[str, Filled, reads(lambda text, *_: read_share_or_none(text))]
Amount = Annotated[str, Filled, reads(_read_amount), _NUMBER]
Loses = Annotated[str, Filled, reads(lambda text, _, unit: read_loss(text, unit))]
Heats = Annotated[
    object,
    AfterValidator(_heats),
    WithJsonSchema(
        {
            "anyOf": [
                _WHOLE,
                {
                    "type": "object",
                    "properties": dict.fromkeys(heat_names(), _WHOLE),
                    "additionalProperties": False,
                },
            ]
        }
    ),
]
Quench = Annotated[str, Filled, one_of("quench", QUENCHES), enum_of(QUENCHES)]
Temperature = Annotated[str, Filled, reads(lambda text, *_: read_temperature_c(text)), _NUMBER]
Answer = Annotated[str, Filled, one_of("answer", (*words.YES, *words.NO)), _YES_NO]
Unit = Annotated[str, Filled, one_of("unit", words.UNITS), enum_of(words.UNITS)]
Gauge = Annotated[str, Filled, one_of("gauge", GAUGES), enum_of(GAUGES)]
Heat = Annotated[str, Filled, one_of("kind of heat", HeatKind), enum_of(HeatKind)]
FormName = Annotated[str, Filled, one_of("form", kinds()), enum_of(kinds())]
BarName = Annotated[str, Filled, one_of("form of stock", bar_kinds()), enum_of(bar_kinds())]
OperationName = Annotated[str, Filled, one_of("operation", operations()), enum_of(operations())]
Stations = Annotated[
    list[object],
    Field(max_length=400),
    WithJsonSchema({"type": "array", "items": {"type": "array", "minItems": 3, "maxItems": 3}}),
]
Format = Annotated[str, Filled, enum_of((1, "1"))]
