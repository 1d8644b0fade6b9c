"""The parts of a recipe file as pydantic models: which names belong where."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from types import GenericAlias
from typing import Annotated, Any, Final

from pydantic import BaseModel, ConfigDict, Field, ValidatorFunctionWrapHandler, create_model, field_validator

from coach.forms import kinds
from coach.recipe import words
from coach.recipe.shapes import bar_kinds
from coach.recipe.values import (
    Amount,
    Answer,
    BarName,
    Filled,
    Format,
    FormName,
    Gauge,
    Heat,
    Heats,
    Length,
    LengthOrNone,
    Line,
    Lines,
    Loses,
    OperationName,
    Prose,
    Proses,
    Quench,
    Share,
    ShareOrNone,
    Size,
    Stations,
    Temperature,
    Unit,
    amounts,
    enum_of,
    extras,
    model_or_word,
    one_of,
)

_TO_WHY: Final = "write sizes here, such as {width: 30}, or to: drawing for the finished ones"
_SCALE_WHY: Final = "scale is none, or names with their values, such as {forging: 0.03 mm}"


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
        kind = Annotated[str, Filled, one_of(words.said(name), choices), enum_of(choices)]
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
    remains: Length | None = None
    """Of steel to be laid on: how thick it is to be left where it works, on the finished tool."""


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
    fire: ShareOrNone | None = None
    """Of what the same heat would take in free air, the share that this fire takes."""
    doubt: ShareOrNone | None = None
    """How unsure these are, as a share of them."""


def _dimensions(forms: Iterable[str]) -> list[str]:
    return [name for form in forms for name in kinds()[form].DIMENSIONS]


Stock = _with_fields("Stock", _Stock, _sizes(_dimensions(bar_kinds()), Length))
Drawing = _with_fields("Drawing", _Drawing, [*_choices(), *_sizes(_dimensions(kinds()), Size)])
Sizes = _with_fields("Sizes", _Sizes, _sizes([*_dimensions(kinds()), *extras()], Size))


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
    """How many heats it is planned to take; for a weld also by name, such as {weld: 2, close: 1}."""
    heat: Heat | None = None
    """The kind of heat."""
    heated: Lines | None = None
    """The zones that lie in the fire and scale."""
    colour: Line | None = None
    """The colour to work at."""
    temperature: Temperature | None = None
    """The temperature to work at, instead of the one the colour stands for."""
    quench: Quench | None = None
    """What it is quenched in."""
    flux: Line | None = None
    """The flux, and when it goes on."""
    keep: Lines | None = None
    """What stays in its place through the step, such as the drift in the eye."""
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
        return model_or_word(told, model, words.DRAWING, _TO_WHY)


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
        return model_or_word(told, model, words.NONE, _SCALE_WHY)


Piece = _with_fields("Piece", _Piece, [("stock", Stock, "The bar it starts from.")], needed=True)
Step = _with_fields(
    "Step",
    _Step,
    [
        ("to", Sizes | None, "The sizes to work to, or drawing for all of the finished ones."),
        *_choices(),
        *(
            (name, Amount, f"Of the operation: its {words.said(name)}, {kind}.")
            for name, kind in amounts().items()
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
