"""The words of a shape inside a line: a section, a taper, a hole, a profile, a form by its name."""

from __future__ import annotations

import re
from functools import cache
from typing import Final

from coach.forms import Form, holes, kinds, listed
from coach.forms.bar import Bar
from coach.recipe.line import Line
from coach.recipe.measuring import Size, read_size
from coach.recipe.shaped import Shaped

#: The form of a section of two sizes, and that of two such sections.
FLAT: Final = "flat"
TAPER: Final = "taper"
PIERCED: Final = "pierced bar"
SLOTTED: Final = "slotted bar"
_BY: Final = re.compile(r" (?:x|×|by) ")
_CROSSED: Final = re.compile(r"\d ?(?:x|×|by)\b")
_TO: Final = re.compile(r" to (?=[a-z\d])")
_TAPERING: Final = re.compile(r" tapering to ")
_SIZE_AHEAD: Final = re.compile(r"(?=\d|\.\d|(?:at least|at most|between) \d)")
_PROFILE: Final = re.compile(r"profile\s+(?=\d)")
_THEN: Final = re.compile(r",?\s+then ")
_AT: Final = re.compile(r" at (?=\d)")
_FLARING: Final = re.compile(r" flaring to ")
_THROUGH: Final = re.compile(r" through its (\w+)")
_RING_OF: Final = re.compile(r"ring of (?=\d|at |between )")
_OF_HEATS: Final = re.compile(r"\d{1,2} (?:weld|close|mend|forge)\b")
_ALONE: Final = re.compile(r"\d{1,4}(?:[.,]\d{1,3})?(?: (?:mm|in))?")
_LONGEST_ECHO: Final = 30
#: What an oblong hole as long as it is wide is called.
SQUARE: Final = "square"
_OBLONG: Final = "rectangle"
#: How a hole is said.
HOLES: Final = tuple(f"{shape} hole" for shape in (*holes.SHAPES, SQUARE))
#: A hole alone is no row.
_ONE: Final = ("one", "a", "1")
_ON_EDGE: Final = re.compile(r" on edge(?=\s*(?:,|$)|\s)")


@cache
def across() -> dict[str, str]:
    """The bars of one size across, with what that is called."""
    return {
        name: form.DIMENSIONS[0]
        for name, form in kinds().items()
        if issubclass(form, Bar) and len(form.DIMENSIONS) == 2
    }


@cache
def _section_pattern() -> re.Pattern[str]:
    return re.compile(rf"({'|'.join(across())}) {_SIZE_AHEAD.pattern}")


@cache
def _form_pattern() -> re.Pattern[str]:
    names = "|".join(sorted(kinds(), key=len, reverse=True))
    return re.compile(rf"({names})(?=\s*(?:,|$)|\s+[a-z])(?! hole\b)")


@cache
def _bent_of_pattern() -> re.Pattern[str]:
    """`ring of round 14`, `coil of round 8` or `scroll of 20 x 6`: the form, and the bar bent to it."""
    bent = {name.removeprefix("round ") for name, form in kinds().items() if form.unbent is not Form.unbent}
    names = "|".join(sorted(bent - {"ring"}, key=len, reverse=True))
    bars = "|".join(across())
    size = _SIZE_AHEAD.pattern
    return re.compile(rf"(ring(?= of round )|{names}) of (?:({bars}) )?{size}")


def _read_bent_of(line: Line, shaped: Shaped, kind: str, bar: str, start: int) -> None:
    """The section of the bar that a form is bent of."""
    kind = f"{bar} {kind}" if f"{bar} {kind}" in kinds() else kind
    names: tuple[str, ...] = ("width", "thickness") if bar == FLAT else (across()[bar],)
    form = kinds()[kind]
    if bar == SQUARE and form.FALLBACKS.keys() & {"width", "thickness"}:  # one of the two goes with the other
        names = tuple({"width", "thickness"} - form.FALLBACKS.keys())
    if not set(names) <= set(form.DIMENSIONS):
        line.fault(f"a {kind} has no {bar} bar: write {kind}, and each of its sizes behind its word", start)
        line.take_part()
        return
    _put_form(line, shaped, kind, start)
    _put_section(line, shaped, "", names)


@cache
def _row_pattern() -> re.Pattern[str]:
    """`three round holes 7` or `eight slot holes 6 x 3`: a row of them in a flat bar."""
    counts = "|".join(kinds()[PIERCED].OPTIONS["holes"])
    shapes = "|".join(("round", SQUARE, *kinds()[SLOTTED].OPTIONS["hole"]))
    return re.compile(
        rf"({counts}|{'|'.join(_ONE)}|\d{{1,3}}) ({shapes}) holes?(?=\s*(?:,|$)|\s+(?:\d|at |between ))\s*"
    )


@cache
def _hole_pattern() -> re.Pattern[str]:
    return re.compile(
        rf"(?:({'|'.join((*holes.SHAPES, SQUARE))}) )?hole(?=\s*(?:,|$)|\s+(?:\d|at |between |through ))"
    )


@cache
def _choice_pattern() -> re.Pattern[str]:
    """A choice of a form other than those of a hole, which are said in its own words."""
    words = [rf"{name} (?P<{name}>{'|'.join(choices)})" for name, choices in choices_told().items()]
    return re.compile(
        rf"(?:on (?:(?P<side>one) side|(?P<both>both) sides){''.join('|' + one for one in words)})(?![\w-])"
    )


@cache
def choices_told() -> dict[str, tuple[str, ...]]:
    """The choices that forms offer besides the shape of a hole and the way it goes, by their names."""
    found: dict[str, tuple[str, ...]] = {}
    for form in kinds().values():
        for name, choices in form.OPTIONS.items():
            if name not in ("hole", "through"):
                found[name] = (*found.get(name, ()), *choices)
    return found


def read_shape(line: Line, shaped: Shaped, *, drawn: bool) -> bool:
    """Read the words of a shape that stand here; false where none do.

    Args:
        line: read up to where they may begin.
        shaped: what takes them in.
        drawn: whether a zone is drawn and not worked on: what is left out of a step the zone has already.
    """
    start = line.at
    if line.take(_PROFILE):
        _read_profile(line, shaped, start)
    elif bent := line.take(_bent_of_pattern()):
        _read_bent_of(line, shaped, bent[1], bent[2] or FLAT, start)
    elif drawn and line.take(_RING_OF):
        if _put_section(line, shaped, "", ("width", "thickness")):
            shaped.ring = (line.place(start), line.take(_ON_EDGE) is not None)
    elif chosen := line.take(_choice_pattern()):
        for option, value in chosen.groupdict().items():
            if value:
                shaped.options["sides" if option in ("side", "both") else option] = (value, line.place(start))
    elif row := line.take(_row_pattern()):
        _read_row(line, shaped, row, start)
    elif line.looks(_hole_pattern()):
        _read_hole(line, shaped, drawn=drawn)
    elif shaped.sizes and line.looks(_SIZE_AHEAD) and not _CROSSED.search(line.part):
        return False  # a bare number behind a section is none
    elif (bar := line.take(_section_pattern())) or line.looks(_SIZE_AHEAD):
        _read_section(line, shaped, bar[1] if bar else FLAT, start)
    elif name := line.take(_form_pattern()):
        _put_form(line, shaped, name[1], start)
    else:
        return False
    return True


def _put_form(line: Line, shaped: Shaped, kind: str, at: int) -> None:
    if shaped.form is not None:
        bar = f", or of {kind} if it is the bar" if kind in across() else ""
        line.fault(f"{kind} is a second form: the line says {shaped.form[0]} already{bar}", at)
    else:
        shaped.form = (kind, line.place(at))


def _read_section(line: Line, shaped: Shaped, bar: str, start: int) -> None:
    """A section, and the one that it tapers to."""
    names = (across()[bar],) if bar in across() else ("width", "thickness")
    if not _put_section(line, shaped, "", names):
        return
    rising = line.take(_TAPERING)
    if not rising and not line.take(_TO):
        if bar == FLAT:
            shaped.section = line.place(start)
        else:
            _put_form(line, shaped, bar, start)
        return
    kind = f"{bar} taper"
    ends = tuple(f"end_{name}" for name in names)
    if bar == "square":  # a taper has two sizes across: those of a square are the same
        shaped.sizes["width"] = shaped.sizes["thickness"] = shaped.sizes.pop("side")
        kind, ends = TAPER, ("end_width",)
    elif bar == FLAT:
        kind = TAPER
    elif kind not in kinds():
        line.fault(f"a bar that is {bar} cannot taper here: draw it as a square or a round one", start)
        line.take_part()
        return
    second = line.at
    if (again := line.take(_section_pattern())) and again[1] != bar:
        line.fault(f"{again[1]} where the other end is {bar}: a taper keeps its section", second)
        line.take_part()
        return
    if not _put_section(
        line, shaped, "a taper wants both sizes at its far end, as in 12 x 6 to 10 x 8", ends
    ):
        return
    if len(ends) == 1 and line.looks(_BY):
        message = f"a {bar} end has one size across: write it once, as in {bar} 12 to 8"
        if bar == SQUARE:
            message += "; where the other end is flat both say two, as in 20 x 20 to 32 x 5"
        line.fault(message, second)
        line.take_part()
        return
    if bar == "square":
        shaped.sizes["end_thickness"] = shaped.sizes["end_width"]
    if not rising and len(ends) == 1 and _rises(shaped, names[0] if bar != "square" else "width", ends[0]):
        line.fault(
            "limits or a taper? Write between for limits, tapering to for a taper that rises", second - 4
        )
    _put_form(line, shaped, kind, start)


def _rises(shaped: Shaped, first: str, second: str) -> bool:
    """Whether the second size is the larger one; sizes in two units are let be."""
    sizes = [
        re.match(r"(?:(\d+)[ -])?(\d+)(?:/(\d+)|[.,](\d+))?(?: (\w+))?", shaped.sizes[name].text)
        for name in (first, second)
    ]
    found = []
    for size in sizes:
        if size is None:
            return False
        whole, number, under, behind, unit = size.groups()
        value = int(number) / int(under) if under else float(f"{number}.{behind or 0}")
        found.append((value + int(whole or 0), unit))
    return found[0][1] == found[1][1] and found[1][0] > found[0][0]


def _put_section(line: Line, shaped: Shaped, second: str, names: tuple[str, ...]) -> bool:
    """The sizes across; false, with a fault, where one cannot be read.

    Args:
        line: read up to the first.
        shaped: what takes them in.
        second: what is told where the second of two is missing; empty tells it of a section.
        names: what they are called.
    """
    at = line.at
    for number, name in enumerate(names):
        if number and not line.take(_BY):
            wanted = second or _second_wanted(line, at)
            line.fault(_instead(line, wanted), line.at if second or _is_taper(line) else at)
            line.take_part()
            return False
        at = line.at
        size = read_size(line, ranged=False)
        if size is None:
            line.take_part()
            return False
        shaped.put(line, name, size, at)
    if len(names) == 2 and line.looks(_BY):
        line.fault("a third size: is it the length? Write long before it, after a comma")
        line.take_part()
        return False
    return True


def _second_wanted(line: Line, at: int) -> str:
    """What is told of one size alone where a section was read."""
    part = f"{line.text[at : line.at]}{line.part}"
    if _OF_HEATS.match(part):
        them = re.sub(r" heats?$", "", part.strip())
        return f"how many heats? Write heats before them, as in heats {them[:_LONGEST_ECHO]}"
    if re.match(r" ?[x×] ?\d", line.part):
        return "a blank belongs on both sides of the x, as in 30 x 6"
    if re.search(r"\d $", line.text[:at]):
        return "a second number: is a point missing, or a comma before the next part?"
    alone = part.strip()
    if at == 0 and alone == line.text.strip() and _ALONE.fullmatch(alone):
        return (
            f"a section has two sizes, as in {alone} x 8, or says what it is: round {alone}, square {alone}"
        )
    return "a section has two sizes, as in 30 x 8; any other size wants its word, such as long 30"


def _is_taper(line: Line) -> bool:
    return bool(re.match(r" to \d", line.part))


def _instead(line: Line, wanted: str) -> str:
    if _is_taper(line):
        return "limits or a taper? Write between for limits; a taper of a flat has two sizes at each end"
    return wanted


def _read_hole(line: Line, shaped: Shaped, *, drawn: bool) -> None:
    """A hole with its mouths and the way it goes through."""
    start = line.at
    found = line.take(_hole_pattern())
    shape = found[1] if found else None
    if drawn and shape is None:
        line.fault(f"say which hole, as in round hole 8: {listed(holes.SHAPES, 'or')}", start)
    if shape is not None:
        shaped.options["hole"] = (_OBLONG if shape == SQUARE else shape, line.place(start))
    if drawn:
        shaped.form = ("eyed", line.place(start))
    line.take(re.compile(r" (?=\d|at |between )"))
    if line.looks(_SIZE_AHEAD):
        _read_mouth(line, shaped, shape, "")
        if line.take(_FLARING):
            _read_mouth(line, shaped, shape, "far_")
    through_at = line.at + 1
    if through := line.take(_THROUGH):
        shaped.options["through"] = (through[1], line.place(through_at + len("through its ")))
    elif drawn and shape not in ("round", SQUARE, None) and not line.faulty:  # a nail's goes through its flat
        line.fault(f"say which way the {shape} hole goes: through its thickness or through its width")


def _read_row(line: Line, shaped: Shaped, row: re.Match[str], start: int) -> None:
    """A row of holes of one shape: how many and of what size."""
    count, shape = row[1], row[2]
    if count in _ONE:
        line.fault(f"one hole alone has no number: write {shape} hole {line.take_part()}".rstrip(), start)
        return
    if row[0].rstrip().endswith("hole"):
        line.fault(f"several holes: write {count} {shape} holes", start)
    _put_form(line, shaped, PIERCED if shape == "round" else SLOTTED, start)
    counts = dict(enumerate(kinds()[PIERCED].OPTIONS["holes"], start=2))
    if count.isdigit():
        if int(count) not in counts:
            line.fault(f"a row has {counts[min(counts)]} to {counts[max(counts)]} holes, not {count}", start)
            line.take_part()
            return
        count = counts[int(count)]
    shaped.options["holes"] = (count, line.place(start))
    if shape != "round":
        shaped.options["hole"] = (_OBLONG if shape == SQUARE else shape, line.place(start))
        if line.looks(_SIZE_AHEAD):
            _read_mouth(line, shaped, shape, "")
        return
    at = line.at
    if line.looks(_SIZE_AHEAD) and (size := read_size(line, ranged=False)) is not None:
        shaped.put(line, "hole_diameter", size, at)


def _read_mouth(line: Line, shaped: Shaped, shape: str | None, far: str) -> None:
    for name in ("hole_length", "hole_width"):
        at = line.at
        if name == "hole_width":
            if not line.take(_BY):
                if shape == SQUARE:
                    shaped.put(line, f"{far}{name}", shaped.sizes[f"{far}hole_length"], at)
                elif shape != "round":
                    line.fault("a mouth has two sizes, as in 36 x 22; only a round or a square one has one")
                return
            at = line.at
        size = read_size(line, ranged=False)
        if size is None:
            line.take_part()
            return
        shaped.put(line, f"{far}{name}", size, at)


def _read_profile(line: Line, shaped: Shaped, start: int) -> None:
    """Sections with their places along."""
    shaped.form = ("profile", line.place(start))
    shaped.stations_at = line.place(start)
    first = Size("0", line.place(start))
    while True:
        width = read_size(line, limits=False)
        by = line.take(_BY) if width else None
        thickness = read_size(line, limits=False) if by else None
        if width is None or thickness is None:
            if width is not None and not by:
                line.fault("each section of a profile has two sizes, as in 74 x 2 at 50")
            line.at = len(line.text)
            return
        at = first
        if shaped.stations:
            if not line.take(_AT):
                line.fault("say how far along this section stands, as in 74 x 2 at 50")
                line.at = len(line.text)
                return
            along = read_size(line, limits=False)
            if along is None:
                line.at = len(line.text)
                return
            at = along
        shaped.stations.append((at, width, thickness))
        if not line.take(_THEN):
            return
