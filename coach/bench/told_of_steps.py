"""What the entries of a job tell of its steps: the heats of one, and those that a way back put in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from coach.bench.job_state import JobState
from coach.ledger.amendment import Again
from coach.log.amends import Amends
from coach.log.entries import Entry
from coach.log.kinds.done import Done
from coach.log.kinds.heat import Heat
from coach.log.kinds.struck import Struck
from coach.quantities.words import NOTHING, Words, say


def heats_told(state: JobState, entries: Iterable[Entry], step: int) -> int | None:
    """The heats that were told when a step was finished, and those since it was gone back to.

    None where there is no more to it than its marks: as many as planned are what was taken for granted while
    none was marked, unless a smith said so, and a heat that is marked since stands in their place.
    """
    last, since = None, 0
    for entry in entries:
        if isinstance(entry.body, Done) and entry.body.step == step:
            last, since = entry, 0
        elif isinstance(entry.body, Heat) and entry.body.step == step and entry.number in state.counted:
            since += 1
    end = last.body if last is not None and last.number not in state.counted else None
    if not isinstance(end, Done) or end.marked:
        return None
    planned = state.plan.recipe.steps[step - 1].heats
    return None if since and end.heats == planned and not end.told else end.heats + since


def in_place_of_planned(state: JobState, entries: Iterable[Entry], step: int) -> Words:
    """What is said of the first heat since a step was gone back to, that was finished with its planned heats.

    Those were never marked, so this heat stands in their place.
    """
    planned = state.plan.recipe.steps[step - 1].heats
    ends = [one for one in entries if isinstance(one.body, Done) and one.body.step == step]
    end = ends[-1].body if ends and ends[-1].number not in state.counted else None
    if not isinstance(end, Done):
        return NOTHING
    if end.marked or end.told or planned < 1 or end.heats != planned or state.heats != 1:
        return NOTHING
    were = "one planned heat that was" if planned == 1 else f"{planned} planned heats that were"
    return say("; it stands in place of the {} counted before: say at its end how many it took", were)


def put_in_by(entry: Entry, entries: Sequence[Entry]) -> tuple[Again, ...]:
    """The steps that a way back put in, or that one which strikes it out takes away or brings back."""
    by_number = {one.number: one.body for one in entries}
    body = entry.body
    while isinstance(body, Struck):
        body = by_number[body.entry]
    return body.amendment.again if isinstance(body, Amends) else ()
