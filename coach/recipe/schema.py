"""The structure of a recipe file: which names belong where and what each may say.

Only this module knows pydantic. The same models check a file and make the JSON Schema by which an editor
completes and checks a recipe while it is typed.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path as FilePath
from types import GenericAlias
from typing import Annotated, Any, Final

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationError,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WithJsonSchema,
    create_model,
    field_validator,
)
from pydantic_core import ErrorDetails, PydanticCustomError

from coach.forms import kinds
from coach.operations import operations
from coach.quantities import SizeError, read_length_mm, read_share, read_temperature_c
from coach.recipe import words
from coach.recipe.findings import Finding, Path
from coach.recipe.shapes import bar_kinds
from coach.recipe.sizes import (
    amount_reader,
    limits_reader,
    read_heats,
    read_length_or_none,
    read_loss,
    read_share_or_none,
)

SCHEMA_FILE: Final = FilePath(__file__).with_name("recipe.schema.json")
_DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"
_NAMES_BELONG: Final = "names with their values belong here, such as length: 30"

#: What pydantic finds wrong, as a shop would say it.
MESSAGES: Final[Mapping[str, str]] = {
    "missing": "{name} is missing: add {name}:",
    "extra_forbidden": "{key} is no name that belongs here: {hint}",
    "string_type": "one text belongs here, not a list or names with values",
    "model_type": _NAMES_BELONG,
    "dict_type": _NAMES_BELONG,
    "list_type": "a list belongs here, one entry to a dash",
    "string_too_short": "the name stands here without a value",
    "string_too_long": "this is too long: {max_length} letters at most",
    "too_long": "this list is too long: {max_length} entries at most",
    "size": "{why}",
    "word": "{why}",
}

# ── what one value may be ───────────────────────────────────────────────────────────────────────


def _reads(read: Callable[[str, str, str], object]) -> AfterValidator:
    """The check that a reader takes a text; it is given the text, its key and the file's unit."""

    def taken(text: str, info: ValidationInfo) -> str:
        unit = info.context["unit"] if info.context else "mm"
        try:
            read(text.strip(), info.field_name or "", unit)
        except SizeError as error:
            raise PydanticCustomError("size", "{why}", {"why": str(error).removesuffix(".")}) from None
        return text

    return AfterValidator(taken)


def _one_of(kind: str, known: Iterable[str]) -> AfterValidator:
    """The check that a text is one of the trade's words, whatever its blanks, hyphens and capitals."""
    allowed = tuple(known)
    spelt = {one.lower() for one in allowed}

    def taken(text: str) -> str:
        if words.word(text) not in spelt:
            why = f"{words.echo(text)} is no {kind}: {words.hint(words.word(text), allowed)}"
            raise PydanticCustomError("word", "{why}", {"why": why})
        return text

    return AfterValidator(taken)


def _enum(known: Iterable[object]) -> WithJsonSchema:
    return WithJsonSchema({"enum": list(known)})


def _as_list(told: object) -> object:
    return [told] if isinstance(told, str) else told


def _extras() -> Mapping[str, str]:
    """What an operation can have measured that is no size of a form: name -> length or angle."""
    return {name: kind for todo in operations().values() for name, kind in todo.EXTRAS.items()}


def _amounts() -> Mapping[str, str]:
    """What a step can state that its operation takes: name -> length or share."""
    return {name: kind for todo in operations().values() for name, kind in todo.AMOUNTS.items()}


def _read_size(text: str, name: str, unit: str) -> object:
    return limits_reader(name, _extras().get(name, "length"), unit)(text)


def _read_amount(text: str, name: str, unit: str) -> object:
    return amount_reader(_amounts()[name], unit)(text)


_Filled = StringConstraints(min_length=1)
_NUMBER = WithJsonSchema({"type": ["string", "number"]})
_WHOLE = WithJsonSchema({"type": "integer", "minimum": 0, "maximum": 99})
_TEXTS = WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]})

_YES_NO = _enum(("yes", "no", True, False))

Line = Annotated[str, StringConstraints(min_length=1, max_length=200)]
Prose = Annotated[str, StringConstraints(min_length=1, max_length=4000)]
Lines = Annotated[list[Line], BeforeValidator(_as_list), Field(max_length=100), _TEXTS]
Proses = Annotated[list[Prose], BeforeValidator(_as_list), Field(max_length=100), _TEXTS]
Size = Annotated[str, _Filled, _reads(_read_size), _NUMBER]
Length = Annotated[str, _Filled, _reads(lambda text, _, unit: read_length_mm(text, unit)), _NUMBER]
LengthOrNone = Annotated[str, _Filled, _reads(lambda text, _, unit: read_length_or_none(text, unit)), _NUMBER]
Share = Annotated[str, _Filled, _reads(lambda text, *_: read_share(text))]
ShareOrNone = Annotated[str, _Filled, _reads(lambda text, *_: read_share_or_none(text))]
Amount = Annotated[str, _Filled, _reads(_read_amount), _NUMBER]
Loses = Annotated[str, _Filled, _reads(lambda text, _, unit: read_loss(text, unit))]
Heats = Annotated[str, _Filled, _reads(lambda text, *_: read_heats(text)), _WHOLE]
Temperature = Annotated[str, _Filled, _reads(lambda text, *_: read_temperature_c(text)), _NUMBER]
Answer = Annotated[str, _Filled, _one_of("answer", (*words.YES, *words.NO)), _YES_NO]
Unit = Annotated[str, _Filled, _one_of("unit", words.UNITS), _enum(words.UNITS)]
Gauge = Annotated[str, _Filled, _one_of("gauge", words.GAUGES), _enum(words.GAUGES)]
Heat = Annotated[str, _Filled, _one_of("kind of heat", words.HEAT_KINDS), _enum(words.HEAT_KINDS)]
FormName = Annotated[str, _Filled, _one_of("form", kinds()), _enum(kinds())]
BarName = Annotated[str, _Filled, _one_of("form of stock", bar_kinds()), _enum(bar_kinds())]
OperationName = Annotated[str, _Filled, _one_of("operation", operations()), _enum(operations())]
Stations = Annotated[
    list[object],
    Field(max_length=400),
    WithJsonSchema({"type": "array", "items": {"type": "array", "minItems": 3, "maxItems": 3}}),
]
Format = Annotated[str, _Filled, _enum((1, "1"))]


# ── what belongs where ──────────────────────────────────────────────────────────────────────────


class Part(BaseModel):
    """A part of a recipe: only the names listed belong in it."""

    model_config = ConfigDict(extra="forbid", frozen=True, use_attribute_docstrings=True)


def _with_fields(
    name: str, base: type[Part], fields: Iterable[tuple[str, object, str]], *, needed: bool = False
) -> type[Part]:
    """A part with more names, each with what it may say and its description."""
    more: dict[str, Any] = {
        field: (kind, Field(description=said) if needed else Field(default=None, description=said))
        for field, kind, said in fields
    }
    made: type[Part] = create_model(name, __base__=base, __doc__=base.__doc__, **more)
    return made


def _sizes(dimensions: Iterable[str], kind: object) -> Iterator[tuple[str, object, str]]:
    for name in dict.fromkeys(dimensions):
        yield name, kind, f"The {words.said(name)}."


def _choices() -> Iterator[tuple[str, object, str]]:
    found: dict[str, dict[str, None]] = {}
    for form in kinds().values():
        for name, allowed in form.OPTIONS.items():
            found.setdefault(name, {}).update(dict.fromkeys(allowed))
    for name, choices in found.items():
        kind = Annotated[str, _Filled, _one_of(words.said(name), choices), _enum(choices)]
        yield name, kind, "A choice of the form."


class _Stock(Part):
    """The bar a piece starts from: a form with one section along its length, and the section's sizes."""

    form: BarName
    """The bar's form."""
    doubt: Share | None = None
    """How unsure the section's sizes are, as a share of them; 0.5 % when nothing is said."""


class _Drawing(Part):
    """The finished sizes of one zone; of steel to be laid on, its sizes ready to weld."""

    form: FormName
    """The form it is to have."""
    stations: Stations | None = None
    """A profile's rows of place along, width and thickness, in any one unit."""
    take_up: Lines | None = None
    """The dimensions where spare or missing metal is allowed to show, the first choice first."""
    allowance: Share | None = None
    """Extra metal marked out for this zone, as a share of its volume."""


class _Sizes(Part):
    """The sizes that a step works to."""


class Scale(Part):
    """What each heat takes off every bare face."""

    forging: LengthOrNone | None = None
    """In a forging heat."""
    welding: LengthOrNone | None = None
    """In a welding heat."""
    treatment: LengthOrNone | None = None
    """In a heat to normalise, anneal or harden."""
    doubt: ShareOrNone | None = None
    """How unsure these are, as a share of them."""


def _dimensions(forms: Iterable[str]) -> list[str]:
    return [name for form in forms for name in kinds()[form].DIMENSIONS]


Stock = _with_fields("Stock", _Stock, _sizes(_dimensions(bar_kinds()), Length))
Drawing = _with_fields("Drawing", _Drawing, [*_choices(), *_sizes(_dimensions(kinds()), Size)])
Sizes = _with_fields("Sizes", _Sizes, _sizes([*_dimensions(kinds()), *_extras()], Size))


class _Piece(Part):
    """One lump of one metal."""

    metal: Line
    """A grade, such as mild steel or C45."""
    zones: Lines | None = None
    """Its zones, in order from the end that marks are measured from; the piece itself when left out."""


class _Step(Part):
    """One operation on one zone, piece or join."""

    do: OperationName
    """The operation."""
    piece: Line | None = None
    """The piece, for an operation that goes over all of it."""
    zone: Line | None = None
    """The zone it works on."""
    lay: Line | None = None
    """The zone of another piece that a weld lays on."""
    title: Line | None = None
    """What the step is called; made from the operation and the zone when left out."""
    form: FormName | None = None
    """The form it leaves, where that is not the operation's own or the one the zone has."""
    stations: Stations | None = None
    """The rows of a profile that it leaves."""
    free: Line | None = None
    """The dimension that follows from the metal."""
    loses: Loses | None = None
    """Metal lost besides scale and what the operation takes: 5 g, 2 % or 3 mm."""
    heats: Heats | None = None
    """How many heats it is planned to take."""
    heat: Heat | None = None
    """The kind of heat."""
    heated: Lines | None = None
    """The zones that lie in the fire and scale."""
    colour: Line | None = None
    """The colour to work at."""
    temperature: Temperature | None = None
    """The temperature to work at, instead of the one the colour stands for."""
    how: Proses | None = None
    """What to do."""
    watch: Proses | None = None
    """What to watch for."""
    caution: Proses | None = None
    """What can hurt, besides the operation's own caution."""
    check: Lines | None = None
    """What to measure before the step counts as done: dimension or zone.dimension."""
    gauge: Gauge | None = None
    """What to measure with."""
    rest: Answer | None = None
    """Whether the job may be left after this step."""

    @field_validator("to", mode="wrap", check_fields=False)
    @classmethod
    def _sizes_or_drawing(cls, told: object, model: ValidatorFunctionWrapHandler) -> object:
        return _model_or_word(told, model, words.DRAWING, _TO_WHY)


class _Recipe(Part):
    """A forging recipe: from stock to finished tool."""

    format: Format
    """The format of the file: 1."""
    title: Line
    """What the recipe makes."""
    forge: Line | None = None
    """Whose recipe it is."""
    summary: Prose | None = None
    """What the tool is and what the job is like."""
    time: Line | None = None
    """How long the job takes."""
    units: Unit | None = None
    """The unit of sizes written without one; mm when left out."""
    tools: Lines | None = None
    """The tools wanted."""
    scale: Scale | None = None
    """What each heat takes off every bare face, or none."""
    marks: LengthOrNone | None = None
    """How unsure one mark is as it holds through the forging."""

    @field_validator("scale", mode="wrap")
    @classmethod
    def _scale_or_none(cls, told: object, model: ValidatorFunctionWrapHandler) -> object:
        return _model_or_word(told, model, words.NONE, _SCALE_WHY)


_TO_WHY: Final = "write sizes here, such as {width: 30}, or to: drawing for the finished ones"
_SCALE_WHY: Final = "scale is none, or names with their values, such as {forging: 0.03 mm}"


def _model_or_word(told: object, model: ValidatorFunctionWrapHandler, word: str, why: str) -> object:
    """What a model makes of names and values; one word may stand in their place."""
    if not isinstance(told, str):
        return model(told)
    if words.word(told) == word:
        return None
    raise PydanticCustomError("word", "{why}", {"why": why})


Piece = _with_fields("Piece", _Piece, [("stock", Stock, "The bar it starts from.")], needed=True)
Step = _with_fields(
    "Step",
    _Step,
    [
        ("to", Sizes | None, "The sizes to work to, or drawing for all of the finished ones."),
        *_choices(),
        *(
            (name, Amount, f"What the operation takes: its {words.said(name)}, {kind}.")
            for name, kind in _amounts().items()
        ),
    ],
)
RecipeFile = _with_fields(
    "Recipe",
    _Recipe,
    [
        ("pieces", GenericAlias(dict, (str, Piece)), "The lumps of metal it is made of, by name."),
        ("drawing", GenericAlias(dict, (str, Drawing)), "The finished sizes of every zone, by name."),
        ("steps", GenericAlias(list, (Step,)), "What is done, in order."),
    ],
    needed=True,
)

# ── checking a tree ─────────────────────────────────────────────────────────────────────────────


def check(tree: Mapping[str, object]) -> list[Finding]:
    """What is wrong with the structure of a recipe's plain tree, each with its path."""
    told = tree.get("units")
    unit = words.word(told) if isinstance(told, str) and words.word(told) in words.UNITS else "mm"
    try:
        RecipeFile.model_validate(tree, context={"unit": unit})
    except ValidationError as error:
        return [_finding(tree, one) for one in error.errors(include_url=False)]
    return []


def _finding(tree: Mapping[str, object], error: ErrorDetails) -> Finding:
    kind = error["type"]
    name = str(error["loc"][-1]) if error["loc"] else ""
    path = _path_in(tree, error["loc"])
    said = {"name": words.said(name), "key": words.echo(words.said(name)), **error.get("ctx", {})}
    if kind == "missing":
        path = (*path, name)
    if kind == "extra_forbidden":
        said["hint"] = _key_hint(name, path)
    message = MESSAGES.get(kind, "{said}").format_map({"said": error["msg"], **said})
    return Finding(path, message, at_key=kind == "extra_forbidden", missing=kind == "missing")


def _path_in(tree: object, loc: tuple[int | str, ...]) -> Path:
    """The part of pydantic's location that the tree has."""
    path: list[str | int] = []
    here = tree
    for one in loc:
        if isinstance(here, dict) and one in here:
            here = here[one]
        elif isinstance(here, list) and isinstance(one, int):
            here = here[one]
        else:
            break
        path.append(one)
    return tuple(path)


def _part_at(path: Path) -> type[Part]:
    """The part of a recipe that a path leads to."""
    match path:
        case ("pieces", _, "stock"):
            return Stock
        case ("pieces", _):
            return Piece
        case ("drawing", _):
            return Drawing
        case ("scale",):
            return Scale
        case ("steps", _, "to"):
            return Sizes
        case ("steps", _):
            return Step
        case _:
            return RecipeFile


_FEW: Final = 12


def _key_hint(name: str, path: Path) -> str:
    known = [words.said(field) for field in _part_at(path[:-1]).model_fields]
    near = words.nearest(words.said(name), known)
    if near:
        return f"did you mean {near}?"
    return f"use {words.listed(known, 'or')}" if len(known) <= _FEW else "look at its spelling and its indent"


# ── the schema for editors ──────────────────────────────────────────────────────────────────────


def json_schema() -> dict[str, Any]:
    """The JSON Schema of a recipe file, for editors; every key with blanks and with underscores."""
    made = _spelt_both_ways(_without_null(RecipeFile.model_json_schema()))
    assert isinstance(made, dict)
    steps, recipe = made["$defs"]["Step"]["properties"], made["properties"]
    steps["to"] = {"anyOf": [{"const": words.DRAWING}, steps["to"]]}
    recipe["scale"] = {"anyOf": [{"const": words.NONE}, recipe["scale"]]}
    return {"$schema": _DIALECT, **made, "title": "Forging recipe"}


def schema_text() -> str:
    """The text of `recipe.schema.json`."""
    return json.dumps(json_schema(), indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def _without_null(part: object) -> object:
    """A schema without what only Python knows of: missing values and names made from names."""
    if isinstance(part, list):
        return [_without_null(one) for one in part]
    if not isinstance(part, dict):
        return part
    kept = {
        name: _without_null(value)
        for name, value in part.items()
        if not (name == "default" and value is None) and not (name == "title" and isinstance(value, str))
    }
    choices = kept.get("anyOf")
    if isinstance(choices, list) and {"type": "null"} in choices:
        choices.remove({"type": "null"})
        if len(choices) == 1:
            del kept["anyOf"]
            kept = {**choices[0], **kept}
    return kept


def _spelt_both_ways(part: object) -> object:
    if isinstance(part, list):
        return [_spelt_both_ways(one) for one in part]
    if not isinstance(part, dict):
        return part
    spelt = {name: _spelt_both_ways(value) for name, value in part.items()}
    properties = spelt.get("properties")
    if isinstance(properties, dict):
        for name in list(properties):
            properties[words.said(name)] = properties[name]
    return spelt
