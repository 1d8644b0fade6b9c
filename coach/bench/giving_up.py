"""A piece that is given up: the job as it goes on without it, and what becomes of its metal."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from typing import Final

from coach.bench.entering import EntryFault
from coach.bench.file_amended import FileChanges, amendment, changes_between
from coach.bench.file_matched import Matched
from coach.bench.forged import forged_text
from coach.bench.given_up import is_cut_anew, is_worked
from coach.bench.job_state import JobState
from coach.ledger.looking_back import look_back
from coach.ledger.step_again import spoiled
from coach.ledger.working import piece_density_g_mm3
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.done import Done
from coach.log.kinds.given_up import GivenUp
from coach.operations import Does
from coach.quantities import NOTHING, Words, grams, mm, say
from coach.recipe.freezing import frozen
from coach.recipe.giving_up import is_on, piece_meant, stays_to_cut, text_without
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe

#: `give up hook 2`.
GIVE_UP: Final = re.compile(r"give up (?:the )?(?P<piece>\S.*)", re.IGNORECASE)


def ends_with_it(state: JobState, told: str) -> Done | None:
    """The end of the step in hand, where it is begun on the piece that is given up; else None.

    Raises CannotGiveUp where there is no such piece, and where the others cannot do without it.
    """
    recipe, step = state.plan.as_written, state.step
    piece = piece_meant(recipe, told)
    if step is None or not state.is_begun or not is_on(step, recipe.pieces[piece].every_zone):
        return None
    return Done(step=step.number, heats=state.heats, marked=state.heats > 0, told=False)


def giving_up(state: JobState, entries: Sequence[Entry], told: str) -> tuple[GivenUp, FileChanges]:
    """The entry by which a job goes on without a piece, and what that changes.

    Raises CannotGiveUp, EntryFault where work on it waits for its turn, LedgerError.
    """
    old, done = state.plan.as_written, len(state.records)
    piece = piece_meant(old, told)
    zones = old.pieces[piece].every_zone
    for number in sorted(state.waiting):
        step = old.steps[number - 1]
        if is_on(step, zones):
            raise EntryFault(
                "Step {}, {}, is begun and waits: go on with it (`next {}`), then give {} up.",
                *(number, step.title, number, piece),
            )
    lies_mm, keep = _lies_mm(state, old.pieces[piece].zones), _cut_off_in(state, piece)
    text = text_without(forged_text(state, entries, noted=False), old, piece, done, lies_mm, keep)
    new = read_recipe(text, old.source)
    recipe = follows(old, new, piece, done)
    plan = look_back(recipe)
    changes = changes_between(old, plan.as_written, recipe, _matched(old, recipe, piece, done, keep), done)
    others = tuple(size for size in changes.sizes if size.zone not in zones)
    changes = changes._replace(sizes=others, too_late=())  # what was done of it is no change of the others
    body = GivenUp(
        title=say("{} given up{}", piece, _its_metal(state, piece)),
        changes=changes.words,
        step=state.step.number if state.step is not None else 0,
        cut=done,
        source=new.source,
        text=text,
        recipe=json.dumps(frozen(plan.as_written), ensure_ascii=False, allow_nan=False),
        piece=piece,
    )
    return body, changes


def as_meant(state: JobState, entries: Sequence[Entry], body: Amended) -> Amended:
    """What a change would be if it were made now, of an entry that was carried here; raises EntryFault."""
    if isinstance(body, GivenUp):
        return giving_up(state, entries, body.piece)[0]
    meant, changes = amendment(state, read_recipe(body.text, body.source))
    if changes.is_none:
        raise EntryFault("Nothing ahead is otherwise in that file: there is nothing to take.")
    return meant


def follows(old: Recipe, new: Recipe, piece: str, done: int) -> Recipe:
    """The recipe that a job follows without a piece, by its text: what was done of that shapes nothing."""
    zones = old.pieces[piece].every_zone
    behind = [
        spoiled(step) if is_on(step, zones) and not step.does(Does.MARKS_OUT) else step
        for step in old.steps[:done]
    ]
    steps = (*behind, *new.steps[done:])
    drawing = {
        zone: drawn._replace(taken_back_mm=old.drawing[zone].taken_back_mm)
        for zone, drawn in new.drawing.items()
    }
    numbered = tuple(step._replace(number=at) for at, step in enumerate(steps, 1))
    return new._replace(steps=numbered, drawing=drawing, marks_in_row=old.marks_in_row)


def _matched(old: Recipe, now: Recipe, piece: str, done: int, keep: int | None) -> Matched:
    """Which step of the recipe now each step of the old one is: those of other pieces, in their order."""
    zones = old.pieces[piece].every_zone
    left = [
        at for at, step in enumerate(old.steps) if at < done or step.number == keep or not is_on(step, zones)
    ]
    return Matched(now, done, {at: to for to, at in enumerate(left)}, frozenset())


def _lies_mm(state: JobState, zones: Sequence[str]) -> dict[str, float]:
    """How long each zone is on its bar: as it lies there where nothing was done to it, else as planned."""
    found = {}
    for zone in zones:
        lies_mm = state.plan.bar_of(zone).length_mm
        if state.start is not None and not is_worked(state, (zone,)):
            lies_mm = state.start.size(zone, "length").value
        found[zone] = lies_mm
    return found


def _cut_off_in(state: JobState, piece: str) -> int | None:
    """The step ahead that cuts it off its bar still; one that is cut anew lies before no other there."""
    recipe = state.plan.as_written
    if is_cut_anew(state, recipe.pieces[piece].zones):
        return None
    return stays_to_cut(recipe, piece, len(state.records))


def _its_metal(state: JobState, piece: str) -> Words:
    """What becomes of the metal: it stays on its bar, is cut off at its mark, or lies apart."""
    recipe, zones = state.plan.as_written, state.plan.as_written.pieces[piece].zones
    if (cut_in := _cut_off_in(state, piece)) is not None:
        return say(": what is left of it is cut off at its mark, {}", recipe.steps[cut_in - 1].title)
    there = [zone for zone in zones if not is_worked(state, (zone,))]
    of_it, now = recipe.pieces[piece], state.start
    own_bar = not (of_it.source or of_it.layers)
    if own_bar and now is not None and there and zones[-1] == there[-1]:
        at = max((zones.index(one) for one in zones if one not in there), default=-1) + 1
        long_mm = sum(now.size(one, "length").value for one in zones[at:])
        return say(": {} of its bar is as it was, for the rack or another piece", mm(long_mm))
    if (now := state.now) is None:
        return NOTHING
    mass_g = sum(now.volume_mm3(zone) for zone in zones) * piece_density_g_mm3(of_it)
    return say(": about {} of it is left, for the rack", grams(mass_g))
