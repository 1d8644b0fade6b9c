"""The parts of a recipe file as pydantic models, made from the table of their keys."""

from __future__ import annotations

from collections.abc import Mapping
from types import GenericAlias
from typing import Annotated, Any, assert_never

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WithJsonSchema,
    WrapValidator,
    create_model,
)
from pydantic_core import PydanticCustomError, PydanticKnownError

from coach.recipe import keys, words
from coach.recipe.says import LONGEST_LINE, MOST_TEXTS, Inside, Key, Listed, Named, Part, Says, Text


class Model(BaseModel):
    """A part of a recipe: only the names listed belong in it."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def _made(part: Part) -> type[Model]:
    fields: dict[str, Any] = {key.name: (_kind(key.says), _field(key)) for key in part.keys.values()}
    made: type[Model] = create_model(part.name, __base__=Model, __doc__=part.told, **fields)
    return made


def _field(key: Key) -> Any:
    return Field(description=key.told) if key.needed else Field(default=None, description=key.told)


def _kind(says: Says) -> Any:
    """What pydantic is to check and to tell an editor of what a key may say."""
    match says:
        case Text():
            return _told(_text(says), says.schema)
        case Inside():
            return _inside(says)
        case Named():
            return GenericAlias(dict, (str, _inside(Inside(says.part, or_line=says.or_line))))
        case Listed():
            return GenericAlias(list, (_made(says.part),))
    assert_never(says)


def _told(kind: Any, schema: Mapping[str, object] | None) -> Any:
    return kind if schema is None else Annotated[kind, WithJsonSchema(dict(schema))]


def _text(says: Text) -> Any:
    one = Annotated[
        str, StringConstraints(min_length=1, max_length=says.longest), AfterValidator(_without_trouble(says))
    ]
    if says.several:
        return Annotated[list[one], BeforeValidator(_as_list), Field(max_length=MOST_TEXTS)]
    return one


def _as_list(told: object) -> object:
    return [told] if isinstance(told, str) else told


def _without_trouble(says: Text) -> Any:
    def taken(text: str, info: ValidationInfo) -> str:
        unit = info.context["unit"] if info.context else "mm"
        if trouble := says.trouble(text, info.field_name or "", unit):
            kind, why = trouble
            raise PydanticCustomError(kind, "{why}", {"why": why})
        return text

    return taken


def _inside(says: Inside) -> Any:
    model = _made(says.part)
    if says.word:
        return Annotated[model | None, WrapValidator(_or_word(says))]
    return Annotated[model, WrapValidator(_or_line)] if says.or_line else model


def _or_line(told: object, model: ValidatorFunctionWrapHandler) -> object:
    """A line, or names with values."""
    if not isinstance(told, str):
        return model(told)
    if not told:
        raise PydanticKnownError("string_too_short", {"min_length": 1})
    if len(told) > LONGEST_LINE:
        raise PydanticKnownError("string_too_long", {"max_length": LONGEST_LINE})
    return told


def _or_word(says: Inside) -> Any:
    def taken(told: object, model: ValidatorFunctionWrapHandler) -> object:
        if not isinstance(told, str):
            return model(told)
        if words.word(told) == says.word:
            return None
        raise PydanticCustomError("word", "{why}", {"why": says.why})

    return taken


RecipeFile = _made(keys.RECIPE)
