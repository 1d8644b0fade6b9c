"""Which names belong where in a recipe file, and what each may say: the one table that all who ask go by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from coach.forms import holes
from coach.metals.quenches import QUENCHES
from coach.operations import operations
from coach.operations.gauges import GAUGES
from coach.operations.measures import read_length_or_none
from coach.recipe import words
from coach.recipe.naming import named
from coach.recipe.says import Inside, Key, Listed, Named, Part, Text
from coach.recipe.sizes import read_margin, read_share_or_none

_NUMBER: Final = {"type": ["string", "number"]}
_TEXTS: Final = {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}


def _one_of(word: str, known: Iterable[str], *more: object) -> Text:
    """One of the trade's words; an editor may take more in their place."""
    listed = tuple(known)
    return Text(word=word, known=listed, schema={"enum": [*listed, *more]})


_LINE: Final = Text(200)
#: A grade whose name is a number to look at is text to the reader, and may stand without quotes.
_GRADE: Final = Text(200, schema={"type": ["string", "integer"], "minLength": 1, "maxLength": 200})
_PROSE: Final = Text(4000)
_LINES: Final = Text(200, several=True, schema=_TEXTS)
_PROSES: Final = Text(4000, several=True, schema=_TEXTS)
#: A line of sizes and words with commas, which `coach.recipe.spelling` reads.
_SIZES: Final = Text(400, schema=_NUMBER)
#: As an editor sees a length, or none: what else may be wrong with it the reader says.
_A_LENGTH: Final = {
    **_NUMBER,
    "pattern": "^ *([Nn]one|[-0-9½¼¾.,/ ]+((mm|cm|m|ft|in|inch|foot|feet|['\"])[-0-9/ ]*)*) *$",
}
_LENGTH_OR_NONE: Final = Text(read=lambda text, _, unit: read_length_or_none(text, unit), schema=_A_LENGTH)
_SHARE_OR_NONE: Final = Text(read=lambda text, *_: read_share_or_none(text))
_ANSWER: Final = Text(
    word="answer", known=(*words.YES, *words.NO), schema={"enum": ["yes", "no", True, False]}
)


def _worded(*, of_a_step: bool) -> Iterator[Key]:
    """The words of a line that may stand as keys of their own below it."""
    for word, meant in sorted(named().items()):
        if of_a_step or not meant.is_amount:
            what = "amount of the operation" if meant.is_amount else "size"
            yield Key(words.key(word), _SIZES, f"A {what}, as behind a comma.")
    for hole in ("", *(f"{shape} " for shape in holes.SHAPES)):
        yield Key(words.key(f"{hole}hole"), _SIZES, "Its mouth, as in 36 x 22 flaring to 38 x 24.")


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
USUAL: Final = Part(
    "Usual",
    "What holds for every step that does not say otherwise.",
    Key("at", _LINE, "The colour or temperature of the forging heats."),
    Key("weld_at", _LINE, "That of the welding heats."),
    Key("kerf", _LENGTH_OR_NONE, "What a saw takes."),
    Key("skin", _LENGTH_OR_NONE, "What is ground or filed off each face."),
    Key(
        "margin",
        Text(read=lambda text, *_: read_margin(text)),
        "What is marked out of each zone beyond the plan: enough for 95 %, which `coach check --fix` writes "
        "into the file, or a share of its volume, such as 3 %.",
    ),
    Key("gauge", _one_of("gauge", GAUGES), "What to measure with."),
    Key("flux", _LINE, "The flux of the welds, and when it goes on."),
)
ZONE: Final = Part(
    "Zone",
    "A stretch of a piece: its finished shape and sizes, in one line or with its words as keys.",
    Key("size", _SIZES, "Its shape, such as square 20, 30 x 8 or round 14 to 9."),
    Key("takes_up", _LINE, "Where spare or missing metal may show, the first choice first."),
    Key("allowance", _LINE, "Extra metal marked out for it, as a share of its volume."),
    Key(
        "splits_into",
        _LINE,
        "The zones that its end is split into, such as left and right; where the shares of the metal differ, "
        "left 60 % and right 40 %.",
    ),
    Key("remains", _SIZES, "Of steel to be laid on: how thick it is to be left where it works."),
    *_worded(of_a_step=False),
)
PIECE: Final = Part(
    "Piece",
    "One lump of one metal.",
    Key("metal", _GRADE, "A grade, such as mild steel or C45."),
    Key("bar", _SIZES, "The bar it starts from, such as square 8 or 50 x 10, long 500."),
    Key(
        "stack",
        _LINES,
        "Instead of metal and bar: layers of one width from below, such as 1084, 30 x 4, one to a dash.",
    ),
    Key("at", _LINE, "The usual colour or temperature of its forging heats."),
    Key("size", Inside(ZONE, or_line=True), "The finished size of a piece that is one zone."),
    Key(
        "zones",
        Named(ZONE, or_line=True),
        "Its zones with their finished sizes, in order from the end of the bar.",
    ),
    Key("like", _LINE, "The piece that it is like, but for what is said anew."),
    Key("make", _SIZES, "How many are made."),
    Key("given_up", _ANSWER, "Whether it is made no more: its zones are lengths of its bar then."),
)
#: The key of a step that fastens pieces to each other: it is what is done to the rivet or the collar.
JOIN: Final = "join"
STEP: Final = Part(
    "Step",
    "One operation on one zone, piece or join.",
    *(Key(words.key(name), _SIZES, todo.SUMMARY) for name, todo in operations().items()),
    Key(JOIN, _SIZES, "What holds pieces together: a and b by the zone of a rivet, a tenon or a collar."),
    Key("title", _LINE, "What the step is called; made from the operation and the zone when left out."),
    Key("heats", _SIZES, "How many heats it is planned to take; those of a weld by name: 2 weld + 1 close."),
    Key("at", _SIZES, "The colour or temperature to work at, or both with a comma."),
    Key("also_hot", _LINE, "Other zones that lie in the fire and scale."),
    Key("quench", _one_of("quench", QUENCHES), "What it is quenched in."),
    Key("loses", _LINE, "Metal lost besides scale and what the operation takes: 5 g, 2 % or 3 mm."),
    Key("flux", _LINE, "The flux, and when it goes on."),
    Key("keep", _LINES, "What stays in its place through the step, such as the drift in the eye."),
    Key("how", _PROSES, "What to do."),
    Key("watch", _PROSES, "What to watch for."),
    Key("caution", _PROSES, "What can hurt, besides the operation's own caution."),
    Key("check", _LINES, "What to measure before the step counts as done, with commas; none for nothing."),
    Key("gauge", _one_of("gauge", GAUGES), "What to measure with."),
    Key("rest", _ANSWER, "Whether the job may be left after this step."),
    *_worded(of_a_step=True),
)
RECIPE: Final = Part(
    "Recipe",
    "A forging recipe: from stock to finished tool.",
    Key("recipe", _LINE, "What the recipe makes.", needed=True),
    Key("forge", _LINE, "Whose recipe it is."),
    Key("summary", _PROSE, "What the tool is and what the job is like."),
    Key("time", _LINE, "How long the job takes."),
    Key("units", _one_of("unit", words.UNITS), "The unit of sizes written without one; mm when left out."),
    Key("tools", _LINES, "The tools wanted."),
    Key(
        "scale",
        Inside(SCALE, words.NONE, "scale is none, or names with their values, such as {forging: 0.03 mm}"),
        "What each heat takes off every bare face, or none.",
    ),
    Key("marks", _LENGTH_OR_NONE, "How unsure one mark is as it holds through the forging."),
    Key("make", _SIZES, "How many of the tool are made."),
    Key("usual", Inside(USUAL), "What holds for every step that does not say otherwise."),
    Key("pieces", Named(PIECE), "The lumps of metal it is made of, by name.", needed=True),
    Key("steps", Listed(STEP), "What is done, in order.", needed=True),
)


def unit_of(tree: Mapping[str, object]) -> str:
    """The unit of bare numbers in a recipe's plain tree; mm where it is not said rightly."""
    told = tree.get("units")
    return words.word(told) if isinstance(told, str) and words.word(told) in words.UNITS else "mm"


def is_sound(tree: Mapping[str, object]) -> bool:
    """Whether the structure of a recipe's plain tree is right; what is wrong with it `schema.check` says."""
    return RECIPE.takes(tree, unit_of(tree))
