"""A recipe changed by one line: another size, a step left out, moved, once more, put in or reworded."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import groupby
from typing import Any, Final, NamedTuple, TypeAlias

from coach.forms import listed, said
from coach.operations import operation
from coach.operations.does import HeatKind
from coach.quantities.errors import briefly, did_you_mean
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, run_on, say
from coach.recipe import writing
from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Recipe
from coach.recipe.once_more import made_safe_by, written_again
from coach.recipe.one_bar import lies_behind
from coach.recipe.reader import read_recipe
from coach.recipe.redrawn import Redrawn, redraw
from coach.recipe.regraded import GRADE, regraded
from coach.recipe.remarks import with_remarks
from coach.recipe.same_work import same_on_others
from coach.recipe.spelling import ADVICE, spelt_out

Told: TypeAlias = dict[str, Any]
Places: TypeAlias = list[tuple[str, int] | None]

#: One line for each way in which a recipe is changed so, as the help and a refusal show it.
WAYS: Final = (
    "ZONE.SIZE=44 ±6",
    "skip 7",
    "move 9 before 7",
    "next 9",
    "put off 7",
    "next piece",
    "give up PIECE",
    "7 and 8 in one heat",
    "again 6",
    "heats 7 = 3",
    "grade C60",
    "quench 7 = oil",
    "add after 6: straighten: shank, 1 heat",
    "step 7: spread: plate, flat, thick 5 ±0.5, 2 heats",
)
_SIZE: Final = re.compile(r"(?P<zone>[^.=]+?)\s*\.\s*(?P<size>[^=]+?)\s*=\s*(?P<to>.+)")
_FAR: Final = re.compile(r"\.\s*far[ _][^=]*=")


class CannotChange(Refusal):
    """A line that changes nothing of a recipe, or makes of it what cannot be."""


class Job(NamedTuple):
    """How far a job has come by the recipe that is changed."""

    recipe: Recipe  # as it works by it now
    done: int  # steps
    begun: bool  # whether the step after those has entries
    reckoned: Callable[[Recipe], Recipe] = lambda recipe: recipe  # one with the heats that none says in it

    @property
    def next_at(self) -> int:
        """Where what is done next is put in, from 0."""
        return self.done + self.begun


class _Rows(NamedTuple):
    """The steps of a recipe spelt out, and where each stood in its text."""

    steps: list[Told]
    places: Places


def changed_text(text: str, line: str, job: Job) -> tuple[str, Words]:
    """The recipe's text with what a line says, and that in words.

    Args:
        text: the job's recipe as it stands, each of its steps in it.
        line: one of `WAYS`, or several with ; between, each of the recipe as those before it leave it;
            steps left out one after the other all have the numbers they have before that.
        job: how far it has come.

    Raises CannotChange: the line is none of these, is of a step that is done, or makes a step that cannot be.
    """
    source = job.recipe.source
    spelt = spelt_out(text, source)
    steps = [dict(step) for step in spelt["steps"]]
    rows = _Rows(steps, [(text, at) for at in range(len(steps))])
    told = " ".join(line.split())
    if len(lines := [one.strip() for one in told.split(";") if one.strip()]) > 1:
        return _changed_in_turn(text, lines, job)
    for pattern, change in _CHANGES.items():
        if found := pattern.fullmatch(told):
            words = change(rows, job, found, text)
            break
    else:
        if found := GRADE.fullmatch(told):
            words = regraded(spelt["pieces"], job.recipe, found)
        elif (found := _SIZE.fullmatch(told)) is None:
            raise CannotChange(
                f"{briefly(line)} changes nothing: write {listed(WAYS[:-1])} or {WAYS[-1]}.",
            )
        else:
            words = _resized(spelt, rows, job, found)
    spelt["steps"] = rows.steps
    return with_remarks(writing.write_recipe(spelt), text, rows.places, {}), words


def _changed_in_turn(text: str, lines: list[str], job: Job) -> tuple[str, Words]:
    words = {}
    for at in _in_turn(lines):
        text, words[at] = changed_text(text, lines[at], job)
        job = job._replace(recipe=read_recipe(text, job.recipe.source))
    return text, run_on((words[at] for at in sorted(words)), "; ")


def _in_turn(lines: Sequence[str]) -> list[int]:
    """The places of the lines as they are done: steps left out in a row have the numbers of before that, and
    a far mouth has the last word."""
    order: list[int] = []
    for is_skip, run in groupby(range(len(lines)), key=lambda at: bool(_SKIP.fullmatch(lines[at]))):
        places = list(run)
        order += sorted(places, key=lambda at: -int(lines[at].split()[-1])) if is_skip else places
    return sorted(order, key=lambda at: bool(_FAR.search(lines[at])))


def is_change(line: str) -> bool:
    """Whether a line is one of the ways, whatever this job may make of it."""
    return bool(
        _SIZE.fullmatch(line) or GRADE.fullmatch(line) or any(way.fullmatch(line) for way in _CHANGES)
    )


def why_not(faults: RecipeFaults) -> CannotChange:
    """What a changed recipe's faults come to, for one who has no file before him."""
    messages = dict.fromkeys(fault.message for fault in faults.faults)
    return CannotChange("That cannot be: {}", run_on(messages, "; "))


# ── the ways ────────────────────────────────────────────────────────────────────────────────────────


def _skipped(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    at = _ahead(found["step"], job, rows)
    del rows.steps[at], rows.places[at]
    return say("{} left out", _called(job, at))


def _moved(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    at, other = _ahead(found["step"], job, rows), _ahead(found["other"], job, rows, stays=True)
    to = other + (found["where"] == "after")
    if to in (at, at + 1):
        raise CannotChange(f"Step {at + 1} stands there already.")
    step, place = rows.steps.pop(at), rows.places.pop(at)
    to -= to > at
    rows.steps.insert(to, step)
    rows.places.insert(to, place)
    return say("{} done {} step {}", _called(job, at), found["where"], other + 1)


def _next(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    return _placed(rows, job, _ahead(found["step"], job, rows), job.next_at, "done next")


def _put_off(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    at = _ahead(found["step"], job, rows)
    if at + 1 == len(rows.steps):
        raise CannotChange(f"Step {at + 1} is the last one: there is none to put it off behind.")
    told = _placed(rows, job, at, at + 1, f"put off behind step {at + 2}")
    return say("{}, {}, which is done before it", told, job.recipe.steps[at + 1].title)


def _placed(rows: _Rows, job: Job, at: int, to: int, told: str) -> Words:
    """A step in another place, counted without it."""
    if to == at:
        raise CannotChange(f"Step {at + 1} stands there already.")
    rows.steps.insert(to, rows.steps.pop(at))
    rows.places.insert(to, rows.places.pop(at))
    return say("{} {}", _called(job, at), told)


def _next_piece(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    """The same work on the next piece that is made alike; what is begun of this one waits for it."""
    steps, pieces = job.recipe.steps, list(job.recipe.pieces)
    mine = job.recipe.piece_of(steps[job.done].zones[0]).name
    kin = same_on_others(job.recipe, job.done)
    order = pieces[pieces.index(mine) + 1 :] + pieces[: pieces.index(mine)]
    name = next((one for one in order if one in kin), "")
    if not name:
        raise CannotChange(_no_next_piece(job))
    at = kin[name]
    turn = [step for step in range(job.done + 1, len(steps)) if step != at]
    after = next((place for place, step in enumerate(turn) if step not in kin.values()), len(turn))
    order_now = [*range(job.done), at, *turn[:after], job.done, *turn[after:]]
    rows.steps[:] = [rows.steps[one] for one in order_now]
    rows.places[:] = [rows.places[one] for one in order_now]
    waits = say("; what is entered of {} waits for it", mine) if job.begun else NOTHING
    here = say(
        "on with {}: step {}, {}", name, job.done + 1, steps[at].title
    )  # as it is numbered from now on
    return run_on((here, waits), "")


def _no_next_piece(job: Job) -> str:
    """Why the same work is not done on another piece next."""
    step = job.recipe.steps[job.done]
    inside = same_on_others(job.recipe, job.done, inside=True)
    name = next(iter(inside), "")
    behind = lies_behind(job.recipe, name, step.number) if name else None
    if behind is not None:
        before, cut_in = behind
        return f"The {name} lies inside the bar until step {cut_in} cuts {before} off: its turn is then."
    return (
        f"No other piece is still to have step {step.number}, {step.title}: `next 7` does another step next."
    )


def _in_one_heat(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    """The second step begins in the last heat of the first, and its metal lies in that fire."""
    first, second = sorted((_number(found["step"], rows), _number(found["other"], rows)))
    if second != first + 1:
        raise CannotChange(
            f"Steps {first + 1} and {second + 1} are not one after the other: `move {second + 1} after "
            f"{first + 1}` first."
        )
    _ahead(str(second + 1), job, rows)
    steps = job.reckoned(job.recipe).steps
    one, other = steps[first], steps[second]
    for at, step in ((first, one), (second, other)):
        if not step.heats:
            raise CannotChange(f"{_capital(_called(job, at))}, takes no heat: there is none to share.")
        if step.heat_kind is HeatKind.TREATMENT:
            raise CannotChange(
                f"{_capital(_called(job, at))}, is a heat of its own: nothing else is done in it."
            )
    if other.heat_kind is not HeatKind.FORGING:
        raise CannotChange(f"{_capital(_called(job, second))}, needs its own welding heat.")
    rows.steps[second]["heats"] = str(other.heats - 1)
    besides = [zone for zone in other.heated if zone not in one.heated]
    told = say("steps {} and {} in one heat: step {} takes one less", first + 1, second + 1, second + 1)
    if not besides:
        return told
    work = operation(one.operation)
    if one.heats == 1 and first >= job.done:
        rows.steps[first]["heated"] = [*one.heated, *besides]
    elif first >= job.next_at and work.RESHAPES and not work.FIXES:
        last = {**rows.steps[first], "title": f"{one.title}, last heat", "heats": "1"}
        rows.steps.insert(second, last | {"heated": [*one.heated, *besides]})
        rows.places.insert(second, None)
        rows.steps[first] = {name: kept for name, kept in rows.steps[first].items() if name != "check"}
        rows.steps[first]["heats"] = str(one.heats - 1)
    else:  # what of it was worked so far is known, and a heat of its own is none to be put in
        return run_on((told, say("what the {} scales in that heat is not reckoned", listed(besides))), "; ")
    return told


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _again(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    at = _number(found["step"], rows)
    to = max(at + 1, job.next_at)
    was, with_it, steps = [*rows.steps], made_safe_by(job.recipe, at, to), job.reckoned(job.recipe).steps
    for place, one in enumerate([at] if with_it is None else [at, with_it], to):
        step = {
            **written_again(was[one], steps[one]),
            "title": f"{steps[one].title}, again",
        }
        rows.steps.insert(place, step)
        rows.places.insert(place, None)
    if with_it is None:
        return say("{} done once more, as step {}", _called(job, at), to + 1)
    told = "{} and {} done once more, as steps {} and {}"
    return say(told, _called(job, at), _called(job, with_it), to + 1, to + 2)


def _heats(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    at = _ahead(found["step"], job, rows, stays=True)
    rows.steps[at]["heats"] = found["heats"]
    return say("{} in {} heats", _called(job, at), found["heats"])


def _added(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    step = _read(found["line"], text, job)
    to = job.next_at
    if found["other"]:
        to = _number(found["other"], rows) + (found["where"] == "after")
        if to < job.next_at:
            raise CannotChange(
                f"What is done is done there: the first place for it is before step {job.next_at + 1}."
            )
    rows.steps.insert(to, step)
    rows.places.insert(to, None)
    return say("“{}” put in as step {}", found["line"], to + 1)


def _reworded(rows: _Rows, job: Job, found: re.Match[str], text: str) -> Words:
    at = _ahead(found["step"], job, rows, stays=True)
    step, was = _read(found["line"], text, job), rows.steps[at]
    if step.get("do") == was.get("do") and step.get("zone") == was.get("zone"):
        step = {name: was[name] for name in ADVICE if name in was} | step
    rows.steps[at] = step
    return say("{}: “{}”", _called(job, at), found["line"])


_STEP: Final = r"(?:step )?(?P<step>\d{1,4})"
_OTHER: Final = r"(?:step )?(?P<other>\d{1,4})"
_SKIP: Final = re.compile(rf"(?:skip|leave out) {_STEP}")
_CHANGES: Final[Mapping[re.Pattern[str], Callable[[_Rows, Job, re.Match[str], str], Words]]] = {
    _SKIP: _skipped,
    re.compile(rf"move {_STEP} (?P<where>before|after) {_OTHER}"): _moved,
    re.compile(rf"(?:next|do next) {_STEP}"): _next,
    re.compile(rf"put off {_STEP}"): _put_off,
    re.compile(r"(?:the )?next piece"): _next_piece,
    re.compile(rf"(?:steps? )?{_STEP} and {_OTHER} in one heat"): _in_one_heat,
    re.compile(rf"again {_STEP}"): _again,
    re.compile(rf"heats {_STEP}\s*[= ]\s*(?P<heats>\d{{1,3}})"): _heats,
    re.compile(rf"add(?: (?P<where>before|after) {_OTHER})?\s*:\s*(?P<line>.+)"): _added,
    re.compile(r"step (?P<step>\d{1,4})\s*:\s*(?P<line>.+)"): _reworded,
}


def _resized(spelt: Told, rows: _Rows, job: Job, found: re.Match[str]) -> Words:
    recipe, drawing = job.recipe, job.recipe.drawing
    zone = found["zone"].strip()
    zones = [zone] if zone in drawing else _in_each_piece(recipe, zone)
    if not zones:
        hint = did_you_mean(zone, drawing, f"there are {listed(drawing)}.")
        raise CannotChange(f"There is no zone {briefly(zone)}: {hint}")
    if (piece := recipe.piece_of(zones[0])).given_up:
        raise CannotChange(f"{piece.name} was given up: nothing of the drawing is asked of it any more.")
    size = said(found["size"].strip())
    told = {name: dict(drawn) for name, drawn in spelt["drawing"].items()}
    for one in zones:
        sizes = {said(name): name for name in drawing[one].limits}
        if size not in sizes:
            hint = did_you_mean(size, sizes, f"it has {listed(sizes)}.")
            raise CannotChange(f"The drawing of the {one} has no size {briefly(size)}: {hint}")
        redraw(told, rows.steps, recipe, job.done, Redrawn(one, sizes[size], found["to"].strip()))
    spelt["drawing"] = told
    return say("the {} of the {} drawn {}", size, listed(zones), found["to"].strip())


def _in_each_piece(recipe: Recipe, zone: str) -> list[str]:
    """The zones that the pieces made alike have of one name, but for those that were given up."""
    alike = {name: drawn.piece for name, drawn in recipe.drawing.items() if name == f"{drawn.piece} {zone}"}
    return [name for name, piece in alike.items() if not recipe.pieces[piece].given_up]


# ── what they share ─────────────────────────────────────────────────────────────────────────────────


def _called(job: Job, at: int) -> str:
    return f"step {at + 1}, {job.recipe.steps[at].title}"


def _number(told: str, rows: _Rows) -> int:
    """A step's place, from 0."""
    at = int(told) - 1
    if not 0 <= at < len(rows.steps):
        raise CannotChange(f"There is no step {int(told)}: the last one is {len(rows.steps)}.")
    return at


def _ahead(told: str, job: Job, rows: _Rows, *, stays: bool = False) -> int:
    """The place of a step that is not done, nor begun unless it `stays`."""
    at = _number(told, rows)
    if at < job.done:
        raise CannotChange(
            f"Step {at + 1} is done: what is done stays, and `again {at + 1}` does it once more."
        )
    if at < job.next_at and not stays:
        raise CannotChange(f"Step {at + 1} is begun: end it, or strike out what is entered of it.")
    return at


def _read(line: str, text: str, job: Job) -> Told:
    """A step in a recipe's words, spelt out."""
    last = text.count("\n") + 1
    with_it = f"{text.rstrip()}\n  - {line}\n"
    source = job.recipe.source
    try:
        step = spelt_out(with_it, source)["steps"][-1]
        if not isinstance(step, dict) or "do" not in step:  # it is no step as it stands: the reader says why
            read_recipe(with_it, source)
            raise CannotChange(f"{briefly(line)} is no step: write it as a recipe has it.")
    except RecipeFaults as faults:
        if ":" not in line:
            raise CannotChange(
                f"{briefly(line)} is no step: write what is done, a colon, and the zone it is done to, such "
                "as straighten: shank, 1 heat."
            ) from None
        own = [fault for fault in faults.faults if fault.line >= last]
        raise why_not(RecipeFaults(own or faults.faults)) from None
    return dict(step)
