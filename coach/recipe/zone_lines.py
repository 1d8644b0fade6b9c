"""The line of a zone: its finished shape and sizes, and what else is said of it."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Final

from coach.forms import forms_called, kinds, listed, said
from coach.operations import operations
from coach.quantities import Kind, errors
from coach.recipe import words
from coach.recipe.bar_words import make_of_bar, read_over, read_twist
from coach.recipe.findings import Path
from coach.recipe.line import Line
from coach.recipe.measuring import read_size
from coach.recipe.naming import dimension_of, dimension_pattern, may_taper, name_pattern, named, own_size
from coach.recipe.shape_words import FLAT, HOLES, across, choices_told, read_shape
from coach.recipe.shaped import Shaped
from coach.recipe.spelt import Spelt

_LIKE: Final = re.compile(r"like ([^,]+)")
_TAKES_UP: Final = re.compile(r"takes up ")
_THEN: Final = re.compile(r" (?:then|and) ")
_ALLOWANCE: Final = re.compile(r"allowance ")
_REMAINS: Final = re.compile(r"remains ")
_DOUBT: Final = re.compile(r"doubt ")
_SPLITS: Final = re.compile(r"splits into(?: |$)")
#: A name behind a comma, and nothing with it.
_ALONE: Final = re.compile(r", *[^\W\d_][^\d,]*(?:,|$)")
_TAKES_UP_NEXT: Final = re.compile(r", *takes up ")
_AND: Final = re.compile(r" and ")


def spell_zone(lines: Iterable[Line], spelt: Spelt, others: Mapping[str, object]) -> None:
    """Spell out a zone's lines under the path that `spelt` stands at.

    Args:
        lines: its one line, or one for each of its keys.
        spelt: what is written of it.
        others: the zones spelt out before it, which it may be like.
    """
    shaped, unit = Shaped(), "mm"
    for line in lines:
        unit = line.unit
        if line.at == 0 and (like := line.take(_LIKE)):
            _be_like(line, like[1], spelt, others)
            line.next_part()
        while not line.is_read:
            if not _read_part(line, shaped, spelt):
                not_understood(line, "of a zone", own=_OF_A_ZONE, form=shaped.form[0] if shaped.form else "")
            line.next_part()
    if shaped.section and shaped.form is None:
        shaped.form = (FLAT, shaped.section)
    make_of_bar(shaped, spelt, unit)
    _eyed_of_one_size(shaped)
    put_shape(shaped, spelt)


def spell_bar(lines: Iterable[Line], spelt: Spelt) -> None:
    """The same of the bar that a piece starts from."""
    shaped = Shaped()
    for line in lines:
        while not line.is_read:
            at, place = line.at, line.place()
            if line.take(_DOUBT):
                if share := read_size(line, Kind.SHARE, limits=False):
                    spelt.put("doubt", share.text, share.place, place)
            elif word := line.take(name_pattern()):
                meant = named()[word["word"]]
                if size := read_size(line, meant.kind):
                    shaped.put(line, meant.name, size._replace(word_at=place), at)
            elif not read_shape(line, shaped, drawn=True):
                not_understood(line, "of a bar")
            line.next_part()
    if shaped.section and shaped.form is None:
        shaped.form = (FLAT, shaped.section)
    for name, size in shaped.sizes.items():
        if size.has_limits:
            spelt.findings.add(size.place, f"a bar has no limits: write its {words.word(name)} alone")
    put_shape(shaped, spelt)


def _be_like(line: Line, name: str, spelt: Spelt, others: Mapping[str, object]) -> None:
    """Take over what is said of another zone; what is said anew stands in its place."""
    told = others.get(name)
    if not isinstance(told, dict) or told is spelt.told:
        known = [one for one, said in others.items() if said is not spelt.told]
        line.fault(
            f"there is no zone {words.echo(name)} before this one: {words.hint(name, known)}", len("like ")
        )
        return
    spelt.told.update(told)
    place = line.place(0)
    for key in told:
        spelt.origins.values[(*spelt.path, key)] = spelt.origins.keys[(*spelt.path, key)] = place


def _read_part(line: Line, shaped: Shaped, spelt: Spelt) -> bool:
    at, place = line.at, line.place()
    if line.take(_TAKES_UP):
        _read_take_up(line, spelt)
    elif line.take(_ALLOWANCE):
        if share := read_size(line, Kind.SHARE, limits=False):
            spelt.put("allowance", share.text, share.place, place)
    elif line.take(_SPLITS):
        _read_branches(line, spelt, place)
    elif line.take(_REMAINS):
        if size := read_size(line, limits=False):
            spelt.put("remains", size.text, size.place, place)
        else:
            line.take_part()  # what is wrong with it is told once
    elif read_twist(line, shaped):
        return True
    elif read_shape(line, shaped, drawn=True):
        return not line.faulty or line.at > at
    elif word := line.take(name_pattern()):
        meant = named()[word["word"]]
        if size := read_size(line, meant.kind, ranged=not may_taper(meant.name)):
            shaped.put(line, meant.name, size._replace(word_at=place), at)
            read_over(line, shaped, meant.name)
        else:
            line.take_part()
    else:
        return False
    return True


def _read_take_up(line: Line, spelt: Spelt) -> None:
    found: list[object] = []
    while True:
        place = line.place()
        word = line.take(dimension_pattern())
        text = dimension_of(word["word"]) if word else line.take_part()
        spelt.place_of("take_up", len(found), place)
        found.append(text)
        if not word or not line.take(_THEN):
            break
    spelt.put("take_up", found, None, None)


def _read_branches(line: Line, spelt: Spelt, place: Path) -> None:
    """The zones that it is split into, each with its share of the metal where that is said."""
    start, found = line.at, 0
    text = line.take_part()
    if _ALONE.match(line.rest) and not line.looks(_TAKES_UP_NEXT):
        line.fault("a comma ends the branches: write and between them, as in left and right")
        line.next_part()
        line.take_part()
    names: list[object] = []
    for one in _AND.split(text):
        spelt.place_of("splits_into", len(names), line.place(start + found))
        names.append(one.strip())
        found += len(one) + len(" and ")
    spelt.put("splits_into", names, place, place)


def _eyed_of_one_size(shaped: Shaped) -> None:
    """A square bar with a hole has its one size both ways."""
    if shaped.form and shaped.form[0] == "eyed":
        for bar, name in across().items():
            if name in shaped.sizes and bar == "square":
                shaped.sizes["width"] = shaped.sizes["thickness"] = shaped.sizes.pop(name)


def put_shape(shaped: Shaped, spelt: Spelt) -> None:
    """What a line says of a shape, as keys of its own."""
    if shaped.form:
        spelt.put("form", shaped.form[0], shaped.form[1], shaped.form[1])
    for name, (choice, place) in shaped.options.items():
        spelt.put(name, choice, place, place)
    if shaped.stations:
        put_stations(shaped, spelt)
    dimensions = kinds()[shaped.form[0]].DIMENSIONS if shaped.form else ()
    for told, size in shaped.sizes.items():
        name = own_size(told, dimensions)
        spelt.put(name, size.text, size.place, size.named_at)


def put_stations(shaped: Shaped, spelt: Spelt) -> None:
    """The rows of a profile."""
    rows = [[size.text for size in row] for row in shaped.stations]
    for number, row in enumerate(shaped.stations):
        for at, size in enumerate(row):
            spelt.place_of("stations", number, size.place)
            spelt.place_of(("stations", number), at, size.place)
    spelt.put("stations", rows, shaped.stations_at, shaped.stations_at)


def _own_line(word: str, known: Collection[str]) -> str | None:
    """The key of a step that is nearest to a word, of those that are no words of its line."""
    from coach.recipe.keys import STEP

    keys = [name for name in STEP.keys if name not in {*known, *operations()} and "_" not in name]
    return errors.nearest(word, keys, _SURELY_SHARE)


#: A key is meant where so much of its letters is there (our choice).
_SURELY_SHARE: Final = 0.8
#: A number that a comma stands in, as the end of what was read.
_DECIMAL_COMMA: Final = re.compile(r"(\d+),(\d+) +$")
#: What a number stands before, and never a size.
_COUNTED: Final = ("heat", "heats")


def _phrase(part: str) -> str | None:
    """The words of a choice that are nearly written there: `on oneside`, `heads tow`."""
    phrases = ["on one side", "on both sides"]
    phrases += [f"{name} {choice}" for name, choices in choices_told().items() for choice in choices]
    return errors.nearest(part.casefold(), phrases, _SURELY_SHARE)


def _then(line: Line, part: str) -> str | None:
    """Whether the next station of a profile stands there, with a slip in its first word."""
    first = part.partition(" ")[0].casefold()
    is_profile = "profile " in line.text[: line.at]
    return "then" if is_profile and errors.nearest(first, ["then"], _NEARLY_SHARE) else None


#: What is counted, and is said otherwise.
_COUNTED_PART: Final = re.compile(r"(?:\w+ )?(turn|hole)s?\b(?=\s*(?:,|$)|\s+\d)")
_HOW_COUNTED: Final = {
    "turn": "a twist is twisted 3 turns; those of a coil follow from its wound length and its pitch",
    "hole": "say how many and of what shape, as in three round holes 6, or slot hole 30 x 9",
}
_RING_OF_A_BAR: Final = re.compile(r".*, (ring) of \d")
_OF_A_BAR: Final = re.compile(r"(?:of|from|out of) (\w+)")
#: Units that stand behind a number which has none of them.
_UNITS: Final = ("mm", "cm", "in", "g", "kg")
#: A short word is meant where so much of its letters is there (our choice).
_NEARLY_SHARE: Final = 0.7
_ACROSS_IT: Final = (
    "what is curved across its bar is no form: write the flat that it is made of, as wide as the curve is "
    "long, and the curve under how"
)
#: What no form says, and what comes nearest.
_CURVED: Final = ("gouge", "trough", "gutter", "hollow", "hollowed", "spoon", "curved", "arched", "domed")
_NO_FORM: Final = dict.fromkeys(_CURVED, _ACROSS_IT) | {
    "dish": "a round one is a bowl, across 88, deep 26, wall 2; of any other write its plate as it lies flat",
    "bent": "write the bar as it lies straight; a step bends it, as in bend: tip, radius 15",
    "tray": "write its plate as it lies flat; a bend turns its sides up",
    "corkscrew": "write coil of round 4 where it is even, and its point as a zone of its own, a taper",
}
#: What no step says, and what it says instead.
_NO_STEP: Final = {"hot": "a hot step says its heats or its colour, as in 1 heat, or at yellow"}
#: What only a zone's line begins a part with.
_OF_A_ZONE: Final = ("like", "remains", "allowance", "take up", "splits into")


def _short(sizes: Iterable[str]) -> Iterator[str]:
    """How a shop says them: `wide` for width, `end thick` for end thickness."""
    return (word for word, meant in named().items() if meant.name in sizes)


#: A second size behind a word that has one, and what stands before it.
_SECOND: Final = re.compile(r"(?:x|×|by) +\d")
_FIRST: Final = re.compile(r"([a-z][a-z ]*?) +[^a-z,]*$")


def no_form(written: str) -> str:
    """What to write in place of a word that says no form, where a zone begins so; empty where it does not."""
    word = written.partition(" ")[0].casefold()
    return f"“{word}” is no word of a zone: {_NO_FORM[word]}" if word in _NO_FORM else ""


def _second_size(line: Line, at: int) -> str:
    """What is wrong where a second size stands behind a word that has one; empty where none does."""
    before = _FIRST.search(line.text[:at])
    if not _SECOND.match(line.text, at) or not before or before[1] in kinds():
        return ""
    if instead := no_form(before[1]):
        return instead
    word = before[1]
    return f"{words.echo(word)} is one size: write each of two behind its own word, such as wide 40, thick 3"


def not_understood(
    line: Line, where: str, more: Iterable[str] = (), own: Iterable[str] = (), form: str = ""
) -> None:
    """Say that nothing is known that begins as what stands here, and go on behind it.

    `form` is that of the line, whose sizes are told where what stands there is not nearly one of them.
    """
    at = line.at
    part = line.take_part()
    if line.faulty and not part:
        return
    if second := _second_size(line, at):
        line.fault(second, at)
        return
    if counted := _COUNTED_PART.match(part):
        line.fault(f"{words.echo(part)} is no part {where}: {_HOW_COUNTED[counted[1]]}", at)
        return
    if bent := _RING_OF_A_BAR.match(line.text[:at] + part):
        line.fault(f"{words.echo(part)}: in a step the form alone is named: write {bent[1]}", at)
        return
    if of := _OF_A_BAR.match(part):
        line.fault(f"{words.echo(part)}: write of, its section and its size, as in of {of[1]} 8", at)
        return
    if part.startswith(";"):
        line.fault("a comma belongs here, and no semicolon", at)
        return
    if part.startswith(("±", "+/-")):
        line.fault(f"{words.echo(part)}: limits stand behind their size with no comma between", at)
        return
    if re.match(r"[\d.,]+", part):
        line.fault(f"{words.echo(part)}: a number without the word that says what it is, such as long 30", at)
        return
    twisted = re.sub("^twist ", "twisted ", part) if not more and re.match(r"twist \d", part) else ""
    if meant := twisted or _phrase(part) or _then(line, part):
        line.fault(f"{words.echo(part)} is no word {where}: did you mean {meant}?", at)
        return
    if not more and re.match(r"twisted(?: \S+)? turns?\b", part):
        line.fault(
            f"{words.echo(part)}: how often it is turned is a figure of 0 or more, as in twisted 2 turns", at
        )
        return
    first = " ".join(re.split(r"\s+(?=\d)", part)[0].split()[:2])
    known = [*named(), *kinds(), *HOLES, *more, *own]
    if first in _UNITS and re.search(r"\d $", line.text[:at]):
        line.fault(f"{words.echo(first)} is no unit of the number before it: write that number alone", at)
        return
    if not more and (word := first.split(" ")[0].casefold()) in forms_called() and word not in known:
        known_as = forms_called()[word]
        meant = f"it is written as {known_as.WRITTEN or known_as.KIND}{known_as.ALSO_CALLED[word]}"
        line.fault(f"{words.echo(word)} is no word {where}: {meant}", at)
        return
    if instead := (_NO_STEP if more else _NO_FORM).get(first.split(" ")[0].casefold()):
        line.fault(f"{words.echo(first.split(' ')[0])} is no word {where}: {instead}", at)
        return
    if more and (longer := f"{where.removeprefix('of ')} {part}") in operations():
        line.fault(f"{words.echo(part)} is no word {where}: begin the step with {longer}, and its zone", at)
        return
    whole = [name for name in known if name.startswith(f"{first.split(' ')[0]} ")]
    near = words.nearest(first, known) if not whole else whole[0]
    near = near or words.nearest(first, known) or words.nearest(first.split(" ")[0], known)
    hint = f"did you mean {near}?" if near else "look at its spelling, and write a comma before each part"
    sizes = kinds()[form].DIMENSIONS if form in kinds() else ()
    if sizes and re.search(r" \d", part) and near not in (*own, *map(said, sizes), *_short(sizes)):
        hint = f"the sizes of a {form} are {listed(map(said, sizes))}"
    if (mark := _DECIMAL_COMMA.search(line.text, 0, at)) and first in _COUNTED:
        one, other = mark[1], mark[2]
        message = (
            f"{words.echo(f'{one},{other} {first}')}: a blank belongs behind the comma between two parts, "
            f"as in {one}, {other} {first}"
        )
        line.fault(message, mark.start(1))
        return
    if near == first and first in kinds():
        own = listed([said(one) for one in kinds()[first].DIMENSIONS], "or")
        hint = f"its sizes stand behind commas with their names, as in {first}, and then {own}"
    elif near == first:
        hint = "write its number before it" if first in _COUNTED else "write its size behind it"
    elif more and (key := _own_line(first.split(" ")[0], known)):
        hint = f"write {key}: under the step, on a line of its own"
    elif more and (drawn := errors.nearest(first.split(" ")[0], _OF_A_ZONE, _SURELY_SHARE)):
        hint = f"{drawn} stands with its zone, in the pieces"
    line.fault(f"{words.echo(first)} is no word {where}: {hint}", at)
