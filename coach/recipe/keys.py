"""Which names belong where in a recipe file, and what each may say: the one table that all who ask go by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from coach.forms import kinds, said
from coach.metals.quenches import QUENCHES
from coach.operations import operations
from coach.operations.does import HeatKind
from coach.operations.gauges import GAUGES
from coach.operations.measures import read_length_or_none
from coach.quantities import Kind, read_length_mm, read_share, read_temperature_c
from coach.recipe import words
from coach.recipe.says import Free, Inside, Key, Listed, Named, Part, Reader, Table, Text
from coach.recipe.shapes import bar_kinds
from coach.recipe.sizes import (
    amount_reader,
    known_amounts,
    limits_reader,
    read_heats,
    read_loss,
    read_share_or_none,
)


def _extras() -> Mapping[str, Kind]:
    """What an operation can have measured that is no size of a form: name -> its kind."""
    return {name: kind for todo in operations().values() for name, kind in todo.EXTRAS.items()}


def _dimensions(forms: Iterable[str]) -> list[str]:
    return [name for form in forms for name in kinds()[form].DIMENSIONS]


def _size(text: str, name: str, unit: str) -> object:
    return limits_reader(name, _extras().get(name, Kind.LENGTH))(text, unit)


def _amount(text: str, name: str, unit: str) -> object:
    return amount_reader(known_amounts()[name])(text, unit)


_NUMBER: Final = {"type": ["string", "number"]}
_TEXTS: Final = {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}
_WHOLE: Final = {"type": "integer", "minimum": 0, "maximum": 99}
_HEATS_BY_NAME: Final = {
    "type": "object",
    "properties": dict.fromkeys((name for todo in operations().values() for name in todo.HEAT_NAMES), _WHOLE),
    "additionalProperties": False,
}
_ROW: Final = {"type": "array", "minItems": 3, "maxItems": 3}


def _number(read: Reader) -> Text:
    """A text that an editor may also take as a number."""
    return Text(read=read, schema=_NUMBER)


def _one_of(word: str, known: Iterable[str], *more: object) -> Text:
    """One of the trade's words; an editor may take more in their place."""
    listed = tuple(known)
    return Text(word=word, known=listed, schema={"enum": [*listed, *more]})


_LINE: Final = Text(200)
_PROSE: Final = Text(4000)
_LINES: Final = Text(200, several=True, schema=_TEXTS)
_PROSES: Final = Text(4000, several=True, schema=_TEXTS)
_SIZE: Final = _number(_size)
_LENGTH: Final = _number(lambda text, _, unit: read_length_mm(text, unit))
_LENGTH_OR_NONE: Final = _number(lambda text, _, unit: read_length_or_none(text, unit))
_SHARE: Final = Text(read=lambda text, *_: read_share(text))
_SHARE_OR_NONE: Final = Text(read=lambda text, *_: read_share_or_none(text))
_TEMPERATURE: Final = _number(lambda text, *_: read_temperature_c(text))
_LOSES: Final = Text(read=lambda text, _, unit: read_loss(text, unit))
_HEATS: Final = Free(lambda text, *_: read_heats(text), {"anyOf": [_WHOLE, _HEATS_BY_NAME]})
_ANSWER: Final = Text(
    word="answer", known=(*words.YES, *words.NO), schema={"enum": ["yes", "no", True, False]}
)
_FORM_NAME: Final = _one_of("form", kinds())
_STATIONS: Final = Table(400, {"type": "array", "items": _ROW})


def _sizes(dimensions: Iterable[str], says: Text) -> Iterator[Key]:
    for name in dict.fromkeys(dimensions):
        yield Key(name, says, f"The {said(name)}.")


def _choices() -> Iterator[Key]:
    found: dict[str, dict[str, None]] = {}
    for form in kinds().values():
        for name, allowed in form.OPTIONS.items():
            found.setdefault(name, {}).update(dict.fromkeys(allowed))
    for name, choices in found.items():
        yield Key(name, _one_of(said(name), choices), "A choice of the form.")


STOCK: Final = Part(
    "Stock",
    "The bar a piece starts from: a form with one section along its length, and the section's sizes.",
    Key("form", _one_of("form of stock", bar_kinds()), "The bar's form.", needed=True),
    Key(
        "doubt", _SHARE, "How unsure the section's sizes are, as a share of them; 0.5 % when nothing is said."
    ),
    *_sizes(_dimensions(bar_kinds()), _LENGTH),
)
DRAWING: Final = Part(
    "Drawing",
    "The finished sizes of one zone; of steel to be laid on, its sizes ready to weld.",
    Key("form", _FORM_NAME, "The form it is to have.", needed=True),
    Key("stations", _STATIONS, "A profile's rows of place along, width and thickness, in any one unit."),
    Key(
        "take_up",
        _LINES,
        "The dimensions where spare or missing metal is allowed to show, the first choice first.",
    ),
    Key("allowance", _SHARE, "Extra metal marked out for this zone, as a share of its volume."),
    Key(
        "remains",
        _LENGTH,
        "Of steel to be laid on: how thick it is to be left where it works, on the finished tool.",
    ),
    *_choices(),
    *_sizes(_dimensions(kinds()), _SIZE),
)
SIZES: Final = Part(
    "Sizes", "The sizes that a step works to.", *_sizes([*_dimensions(kinds()), *_extras()], _SIZE)
)
SCALE: Final = Part(
    "Scale",
    "What each heat takes off every bare face.",
    Key("forging", _LENGTH_OR_NONE, "In a forging heat."),
    Key("welding", _LENGTH_OR_NONE, "In a welding heat."),
    Key("treatment", _LENGTH_OR_NONE, "In a heat to normalise, anneal or harden."),
    Key(
        "fire",
        _SHARE_OR_NONE,
        "Of what the same heat would take in free air, the share that this fire takes.",
    ),
    Key("doubt", _SHARE_OR_NONE, "How unsure these are, as a share of them."),
)
PIECE: Final = Part(
    "Piece",
    "One lump of one metal.",
    Key("metal", _LINE, "A grade, such as mild steel or C45.", needed=True),
    Key(
        "zones",
        _LINES,
        "Its zones, in order from the end that marks are measured from; the piece itself when left out.",
    ),
    Key("stock", Inside(STOCK), "The bar it starts from.", needed=True),
)
_TO: Final = Inside(
    SIZES, words.DRAWING, "write sizes here, such as {width: 30}, or to: drawing for the finished ones"
)
_SCALE: Final = Inside(
    SCALE, words.NONE, "scale is none, or names with their values, such as {forging: 0.03 mm}"
)
STEP: Final = Part(
    "Step",
    "One operation on one zone, piece or join.",
    Key("do", _one_of("operation", operations()), "The operation.", needed=True),
    Key("piece", _LINE, "The piece, for an operation that goes over all of it."),
    Key("zone", _LINE, "The zone it works on."),
    Key("lay", _LINE, "The zone of another piece that a weld lays on."),
    Key("title", _LINE, "What the step is called; made from the operation and the zone when left out."),
    Key(
        "form",
        _FORM_NAME,
        "The form it leaves, where that is not the operation's own or the one the zone has.",
    ),
    Key("stations", _STATIONS, "The rows of a profile that it leaves."),
    Key("free", _LINE, "The dimension that follows from the metal."),
    Key("loses", _LOSES, "Metal lost besides scale and what the operation takes: 5 g, 2 % or 3 mm."),
    Key(
        "heats",
        _HEATS,
        "How many heats it is planned to take; for a weld also by name, such as {weld: 2, close: 1}.",
    ),
    Key("heat", _one_of("kind of heat", HeatKind), "The kind of heat."),
    Key("heated", _LINES, "The zones that lie in the fire and scale."),
    Key("colour", _LINE, "The colour to work at."),
    Key(
        "temperature",
        _TEMPERATURE,
        "The temperature to work at, instead of the one the colour stands for.",
    ),
    Key("quench", _one_of("quench", QUENCHES), "What it is quenched in."),
    Key("flux", _LINE, "The flux, and when it goes on."),
    Key("keep", _LINES, "What stays in its place through the step, such as the drift in the eye."),
    Key("how", _PROSES, "What to do."),
    Key("watch", _PROSES, "What to watch for."),
    Key("caution", _PROSES, "What can hurt, besides the operation's own caution."),
    Key("check", _LINES, "What to measure before the step counts as done: dimension or zone.dimension."),
    Key("gauge", _one_of("gauge", GAUGES), "What to measure with."),
    Key("rest", _ANSWER, "Whether the job may be left after this step."),
    Key("to", _TO, "The sizes to work to, or drawing for all of the finished ones."),
    *_choices(),
    *(
        Key(name, _number(_amount), f"Of the operation: its {said(name)}, {kind.value}.")
        for name, kind in known_amounts().items()
    ),
)
RECIPE: Final = Part(
    "Recipe",
    "A forging recipe: from stock to finished tool.",
    Key("format", Text(schema={"enum": [1, "1"]}), "The format of the file: 1.", needed=True),
    Key("title", _LINE, "What the recipe makes.", needed=True),
    Key("forge", _LINE, "Whose recipe it is."),
    Key("summary", _PROSE, "What the tool is and what the job is like."),
    Key("time", _LINE, "How long the job takes."),
    Key("units", _one_of("unit", words.UNITS), "The unit of sizes written without one; mm when left out."),
    Key("tools", _LINES, "The tools wanted."),
    Key("scale", _SCALE, "What each heat takes off every bare face, or none."),
    Key("marks", _LENGTH_OR_NONE, "How unsure one mark is as it holds through the forging."),
    Key("pieces", Named(PIECE), "The lumps of metal it is made of, by name.", needed=True),
    Key("drawing", Named(DRAWING), "The finished sizes of every zone, by name.", needed=True),
    Key("steps", Listed(STEP), "What is done, in order.", needed=True),
)


def unit_of(tree: Mapping[str, object]) -> str:
    """The unit of bare numbers in a recipe's plain tree; mm where it is not said rightly."""
    told = tree.get("units")
    return words.word(told) if isinstance(told, str) and words.word(told) in words.UNITS else "mm"


def is_sound(tree: Mapping[str, object]) -> bool:
    """Whether the structure of a recipe's plain tree is right; what is wrong with it `schema.check` says."""
    return RECIPE.takes(tree, unit_of(tree))
