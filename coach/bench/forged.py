"""The recipe that a job was really forged by, as a file: with its ways back, amendments and heats taken."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from coach.bench.job_state import JobState
from coach.ledger.amendment import Again
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.given_up import GivenUp
from coach.log.kinds.note import Note
from coach.log.kinds.way_back import WayBackTaken
from coach.operations import operation
from coach.operations.does import HeatKind
from coach.operations.inspect import Inspect
from coach.quantities import Kind, Limits, Words
from coach.recipe import writing
from coach.recipe.limits_written import limits_text
from coach.recipe.model import Recipe, Step, ZoneDrawing
from coach.recipe.remarks import with_remarks
from coach.recipe.spelling import spelt_out
from coach.recipe.words import DRAWING

Told = dict[str, Any]


class _Row(NamedTuple):
    """A step of the job and where it was written."""

    spelt: Told  # as its file spells it out
    base: Step  # as it is read there
    of: tuple[str, int] | None  # its file's text and its place there; None for one that was put in


def forged_text(
    state: JobState,
    entries: Sequence[Entry],
    *,
    noted: bool = True,
    told: Callable[[Words], str] | None = None,
) -> str:
    """The text of the recipe; raises RecipeFaults where the job's own can no longer be read.

    Steps that are done have the heats that they took; sizes and targets are those that its ways
    back left. Remarks stand where they stood, notes at their steps where they are to be `noted`; so does
    what each way back was, as it is `told` in words, where that is given.
    """
    from coach.recipe.reader import read_recipe

    recipe = state.plan.as_written
    rows = _rows(state, entries)
    base = read_recipe(recipe.text, recipe.source)
    spelt = spelt_out(recipe.text, recipe.source)
    spelt.pop("margin", None)
    drawing: dict[str, Told] = dict(spelt["drawing"])
    for zone, drawn in recipe.drawing.items():
        drawing[zone] = _zone(drawing[zone], base.drawing[zone], drawn, recipe)
    spelt["drawing"] = drawing
    given_up = {zone for name in recipe.given_up for zone in recipe.pieces[name].every_zone}
    taken = {record.step.number: record.heats for record in state.records}
    # What was spoiled and made once more is told of as a step of the job, and is none of its recipe.
    made = [
        (row, step)
        for row, step in zip(rows, recipe.steps, strict=True)
        if not (noted and (_is_spoiled(row, step) or given_up & {*step.zones}))
    ]
    if noted:
        _leave_out(spelt, recipe)
    spelt["steps"] = [_step(row, step, recipe, taken.get(step.number)) for row, step in made]
    places = [row.of for row, _ in made]
    return with_remarks(
        writing.write_recipe(spelt), recipe.text, places, _notes(state, entries, told) if noted else {}
    )


def _leave_out(spelt: Told, recipe: Recipe) -> None:
    """Leave out what was given up; of several from one bar the next one has that."""
    pieces = {name: dict(told) for name, told in spelt["pieces"].items()}
    for name in recipe.given_up:
        gone = pieces.pop(name)
        beside = [one for one, told in pieces.items() if (told.get("stock") or {}).get("beside") == name]
        for at, one in enumerate(beside):
            own = {key: gone[key] for key in ("metal", "stack", "stock") if key in gone}
            pieces[one] = {**pieces[one], **(own if not at else {"stock": {"beside": beside[0]}})}
    spelt["pieces"] = pieces


def _rows(state: JobState, entries: Sequence[Entry]) -> list[_Row]:
    """Each step of the job's recipe with the file that it was written in."""
    first = state.first_plan.as_written
    rows = _in_order(list(_rows_of(first.text, first.source)), first.steps)
    for entry in entries:
        body = entry.body
        if entry.number not in state.counted:
            continue
        if isinstance(body, Amended):
            at = body.cut if isinstance(body, GivenUp) else body.step - 1
            rows[at:] = list(_rows_of(body.text, body.source))[body.cut :]
        elif isinstance(body, WayBackTaken):
            rows = _put_in(rows, body.amendment.again)
    return rows


def _rows_of(text: str, source: str) -> Iterator[_Row]:
    from coach.recipe.reader import read_recipe

    read, spelt = read_recipe(text, source), spelt_out(text, source)
    for at, (step, told) in enumerate(zip(read.steps, spelt["steps"], strict=True)):
        yield _Row(told, step, (text, at))


def _in_order(rows: list[_Row], steps: Sequence[Step]) -> list[_Row]:
    """The rows in the order that a job began with, which an earlier version may have read otherwise."""
    if [_known_by(row.base) for row in rows] == [_known_by(step) for step in steps]:
        return rows
    left = list(rows)
    found = []
    for step in steps:
        at = next((at for at, row in enumerate(left) if _known_by(row.base) == _known_by(step)), None)
        if at is None:
            return rows
        found.append(left.pop(at))
    return found


def _known_by(step: Step) -> tuple[object, ...]:
    return step.operation, step.zones, step.lays, step.title


def _put_in(rows: Sequence[_Row], again: Sequence[Again]) -> list[_Row]:
    found = []
    for number, row in enumerate(rows, 1):
        found.append(row)
        for one in (one for one in again if one.after == number):
            found.append(rows[one.like - 1]._replace(of=None))
    return found


def _zone(spelt: Told, base: ZoneDrawing, drawn: ZoneDrawing, recipe: Recipe) -> Told:
    """A zone with the sizes that the job works to in the end."""
    changed = {
        name: limits_text(limits, recipe.system)
        for name, limits in drawn.limits.items()
        if limits != base.limits.get(name)
    }
    told = {**spelt, **changed}
    if drawn.remains_mm is not None and drawn.remains_mm != base.remains_mm:
        told["remains"] = f"{limits_text(_exact(drawn.remains_mm), recipe.system)} {recipe.system}"
    if drawn.allowance_share:
        told["allowance"] = f"{100.0 * drawn.allowance_share:.2f}".rstrip("0").rstrip(".") + " %"
    return told


def _is_spoiled(row: _Row, step: Step) -> bool:
    return step.operation == Inspect.NAME != row.base.operation


def _step(row: _Row, step: Step, recipe: Recipe, taken: int | None) -> Told:
    if _is_spoiled(row, step):
        return {"do": Inspect.NAME, "zone": step.zones[0], "title": step.title}
    told = {**row.spelt}
    if step.again:
        told = _again(row, step, recipe)
    elif step.targets != row.base.targets or _drawn_otherwise(row, step, recipe):
        told |= _aim(row, step, recipe)
    if step.loses != row.base.loses and step.loses.length_mm is not None:
        told["loses"] = f"{limits_text(_exact(step.loses.length_mm), recipe.system)} {recipe.system}"
    if step.quench != row.base.quench:
        told |= {"quench": step.quench, "title": step.title}
        told = {
            name: text for name, text in told.items() if name not in ("how", "watch") or getattr(step, name)
        }
    heats = step.heats if taken is None else taken
    said = taken is not None or (step.heats_said and step.heats != row.base.heats)
    if said and heats != row.base.heats and step.heat_kind is not HeatKind.COLD:
        told["heats"] = str(heats)
    return told


def _exact(size: float) -> Limits:
    return Limits(size, size, size, stated=False)


def _drawn_otherwise(row: _Row, step: Step, recipe: Recipe) -> bool:
    """Whether a step that asks for the drawing would ask for other sizes by the drawing as it is now."""
    if row.spelt.get("to") != DRAWING:
        return False
    drawn = recipe.drawing[step.zones[0]].limits
    return any(step.targets.get(name, limits) != limits for name, limits in drawn.items())


def _aim(row: _Row, step: Step, recipe: Recipe) -> Told:
    """The sizes that a step works to, each said by itself where they are no longer the drawing's."""
    todo = operation(step.operation)
    asked = row.spelt.get("besides" if row.spelt.get("to") == DRAWING else "to")
    was: Mapping[str, str] = asked if isinstance(asked, Mapping) else {}
    drawn = recipe.drawing[step.zones[0]] if step.zones else None
    same = drawn is not None and all(
        step.targets.get(name) == limits for name, limits in drawn.limits.items()
    )
    sizes = {}
    for name, limits in step.targets.items():
        if name in was and limits == row.base.targets.get(name):
            sizes[name] = was[name]
        else:
            kind = todo.kind_of(name) or Kind.LENGTH
            sizes[name] = limits_text(limits, recipe.system, kind)
    if row.spelt.get("to") != DRAWING:
        return {"to": sizes}
    if same and drawn is not None:
        return {}
    shape = step.shape
    form = {"form": shape.kind, **shape.options} if shape is not None else {}
    return {"to": sizes, "besides": {}, **form}


def _again(row: _Row, step: Step, recipe: Recipe) -> Told:
    """A step that was done once more: its heat, its tests and no sizes."""
    kept = ("quench", "temperature", "colour", "flux", "keep", "how", "watch", "caution", "gauge")
    told: Told = {name: row.spelt[name] for name in kept if name in row.spelt}
    extras = (
        {name: text for name, text in dict(row.spelt.get("to") or {}).items() if name in step.targets}
        if isinstance(row.spelt.get("to"), Mapping)
        else {}
    )
    zone = step.zones[0]
    told |= {"do": step.operation, "zone": zone, "title": step.title, "heats": str(step.heats)}
    told |= {"to": extras} if extras else {}
    others = [one for one in step.heated if one != zone and one not in recipe.welds]
    told |= {"heated": [zone, *others]} if others else {}
    checks = [name.removeprefix(f"{zone}.") for name in step.checks]
    return told | ({"check": checks} if checks else {})


def _notes(
    state: JobState, entries: Sequence[Entry], told: Callable[[Words], str] | None
) -> dict[int, list[str]]:
    """What was written down at each step, and the ways back that were taken there."""
    found: dict[int, list[str]] = {}
    for entry in entries:
        if entry.number not in state.counted:
            continue
        if isinstance(entry.body, Note):
            found.setdefault(entry.body.step, []).append(" ".join(entry.body.text.split()))
        elif isinstance(entry.body, WayBackTaken) and told is not None:
            way = " ".join(told(entry.body.title).split())
            found.setdefault(entry.body.step, []).append(f"way back: {way}")
    return found
