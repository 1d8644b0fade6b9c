"""Whether a job as it stands takes an entry: one gate for what is entered here and what is brought in."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from typing import Any

from coach.bench.admitting_known import JobBefore, takes_forged_with, takes_hand, takes_lesson, takes_shop
from coach.bench.entering import EntryFault, correction_is_of, reading_is_of
from coach.bench.going_back import going_back
from coach.bench.job_state import JobState
from coach.bench.replay import after, replay
from coach.bench.resting import held
from coach.bench.righting import rights, thing_to_put_right
from coach.bench.taken_then import check_began, check_end, check_in_hand, check_noted, then_entered
from coach.bench.told_of_steps import heats_told, put_in_by
from coach.ledger.plan import Plan
from coach.ledger.weigh_sizes import too_short
from coach.ledger.workpiece import volume_name
from coach.log.amends import Amends
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.begun_before import BegunBefore
from coach.log.kinds.brought_back import BroughtBack
from coach.log.kinds.corrected import Corrected
from coach.log.kinds.done import Done
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.given_up import GivenUp
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.late_done import LateDone
from coach.log.kinds.late_fire import LateFire
from coach.log.kinds.late_heat import LateHeat
from coach.log.kinds.late_loss import LateLoss
from coach.log.kinds.late_note import LateNote
from coach.log.kinds.late_photograph import LatePhotograph
from coach.log.kinds.late_way_back import LateWayBack
from coach.log.kinds.lesson_left_out import LessonLeftOut
from coach.log.kinds.metal_lost import MetalLost
from coach.log.kinds.note import Note
from coach.log.kinds.put_right import PutRight
from coach.log.kinds.reading import Reading
from coach.log.kinds.rested import Rested
from coach.log.kinds.set_aside import SetAside
from coach.log.kinds.shop_known import ShopKnown
from coach.log.kinds.struck import Struck
from coach.log.kinds.to_put_right import ToPutRight
from coach.log.kinds.way_back import WayBackTaken
from coach.log.kinds.went_back import WentBack
from coach.log.status import JobStatus
from coach.quantities.moments import told_on_the_wall
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, say


def admitted(plan: Plan, state: JobState, entries: Sequence[Entry], entry: Entry) -> JobState:
    """Where one more entry leads; raises a Refusal where the job does not take it.

    `plan` is that which it began with, `state` what its entries so far lead to.
    """
    body, job = entry.body, JobBefore(state, entries, entry.at)
    if "step" in body.limits and not body.OF_ANY_STEP:
        _check_step(state, body)
    if (gate := _GATES.get(type(body))) is not None:
        gate(job, body)
    then, trouble = following(plan, state, entries, entry)
    if trouble:
        stop = "" if trouble.ends_the_sentence else "."
        raise EntryFault(f"That is not entered, for the job could not go on with it: {{}}{stop}", trouble)
    return then


class NotAdmitted(Refusal):
    """An entry of a job that was carried here which it would not have taken if it were typed."""

    def __init__(self, number: int, why: Words) -> None:
        super().__init__(why)
        self.number = number
        """Its number."""


#: How many entries may be gone through again for those after them, in all: a long job with a hundred strikes
#: in it takes a third of that (our choice).
_MOST_AGAIN = 300_000

#: How often it is told how far that has come: after so many (our choice).
_TOLD_AFTER = 15_000


def admit_all(plan: Plan, entries: Sequence[Entry], tell: Callable[[int], None] | None = None) -> None:
    """Take each entry of a whole job in its turn; raises NotAdmitted for the first that cannot be.

    `tell` is told now and then which entry it has come to, where there is much to go through.
    """
    _refuse_readings_without_end(entries)
    state, again, told = replay(plan, entries[:1]), 0, 0
    for at, entry in enumerate(entries[1:], 1):
        body = entry.body
        again += at if body.changes_earlier else len(state.marks) * body.IS_WEIGHED
        if again > _MOST_AGAIN:
            raise NotAdmitted(entry.number, _TOO_MUCH)
        if tell is not None and again - told > _TOLD_AFTER:
            told = again
            tell(entry.number)
        try:
            state = admitted(plan, state, entries[:at], entry)
        except Refusal as refused:
            raise NotAdmitted(entry.number, refused.words) from None
        except Exception as error:  # whatever an entry may be that no command has made
            why = say("Nothing can be reckoned with it ({}).", type(error).__name__)
            raise NotAdmitted(entry.number, why) from error


_TOO_MUCH = say("Too much was read, struck out and corrected before it.")


def _refuse_readings_without_end(entries: Sequence[Entry]) -> None:
    """Refuse at once what would be refused after minutes: a reading is weighed with all of its step."""
    again = run = done = 0
    for entry in entries[1:]:
        body = entry.body
        if isinstance(body, Reading) and not body.taken_at and body.step > done:  # of the step in hand
            again, run = again + run, run + 1
        elif isinstance(body, Done):
            done, run = body.step, 0
        elif isinstance(body, WentBack) or body.changes_earlier:
            run = 0
        if again > _MOST_AGAIN:
            raise NotAdmitted(entry.number, _TOO_MUCH)


def following(plan: Plan, state: JobState, entries: Sequence[Entry], entry: Entry) -> tuple[JobState, Words]:
    """Where one more entry would lead, and why the job could not be reckoned with it."""
    body = entry.body
    # What could not be reckoned with before may be so once an earlier entry counts otherwise.
    then = replay(plan, [*entries, entry]) if body.changes_earlier else after(state, entry)
    if not body.IS_WEIGHED or _trouble(state):
        return then, NOTHING
    found = then.forecast()
    trouble = then.left_out.get(entry.number, then.trouble)
    if isinstance(body, Amends | Amended) and found is not None and found.trouble:
        trouble = found.trouble
    return then, _short_bar_first(then.plan, trouble) if trouble else trouble


def _short_bar_first(plan: Plan, trouble: Words) -> Words:
    """What a step cannot make of too little metal is only what follows from that."""
    short = (too_short(plan, piece) for piece in plan.pieces.values())
    return next((words for words in short if words is not None), trouble)


def _trouble(state: JobState) -> Words:
    found = state.forecast()
    return state.trouble or (found.trouble if found is not None else NOTHING)


def to_strike(state: JobState, entries: Sequence[Entry], number: int) -> Entry:
    """The entry of that number; raises EntryFault where it does not count or cannot be struck out."""
    if not 1 <= number <= len(entries):
        raise EntryFault(f"There is no entry {number}; the entries are numbered 1 to {len(entries)}.")
    entry = entries[number - 1]
    if entry.number not in state.counted:
        raise EntryFault(f"Entry {number} is struck out already.")
    if not entry.body.CAN_BE_STRUCK:
        raise EntryFault("The beginning of a job cannot be struck out; set the job aside instead.")
    return entry


def to_correct(state: JobState, entries: Sequence[Entry], number: int) -> Reading:
    """The reading of that number as it counts now; raises EntryFault where it is none or does not count."""
    was = state.counted[to_strike(state, entries, number).number].body
    if not isinstance(was, Reading):
        raise EntryFault(f"Entry {number} is no reading: only readings can be corrected.")
    return was


# ── what each kind asks for ─────────────────────────────────────────────────────────────────────────


def _check_step(state: JobState, body: Body) -> None:
    here = state.step.number if state.step is not None else 0
    if body.of_step == here:
        return
    if not here:
        raise EntryFault("Every step of this job is done; go back a step to change something.")
    of = f"step {body.of_step}" if body.of_step else "no step"
    called = f"{body.CALLED[:1].upper()}{body.CALLED[1:]}"
    raise EntryFault(f"{called} of {of} cannot be entered while step {here} is in hand.")


def _reading(job: JobBefore, read: Reading) -> None:
    then = then_entered(job.state, read.step, read.taken_at, job.at)
    if not reading_is_of(job.state, then, read):
        raise EntryFault(
            f"A size typed {read.typed[:40]!r} is not read as what is held of it: size, gauge or heat differ."
        )


def _late_heat(job: JobBefore, late: LateHeat | LateFire) -> None:
    if not late.taken_at:
        raise EntryFault(f"A heat of step {late.step} that is entered later must say when it was taken.")
    then_entered(job.state, late.step, late.taken_at, job.at, "heat")


def _correction(job: JobBefore, made: Corrected) -> None:
    was = to_correct(job.state, job.entries, made.entry)
    if not correction_is_of(made, was, job.state.plan.as_written.steps[was.step - 1]):
        raise EntryFault(f"A size typed {made.typed[:40]!r} is not read as the size that is held of it.")


def _done(job: JobBefore, done: Done) -> None:
    marked = job.state.heats
    if done.heats < marked:
        raise EntryFault(
            f"{marked} heat{' is' if marked == 1 else 's are'} marked in this step already, so it cannot "
            f"have taken {done.heats}; strike out a heat."
        )
    told = heats_told(job.state, job.entries, done.step)
    if done.marked and not (told is None and done.heats == marked > 0):
        raise EntryFault(f"The {done.heats} heats of step {done.step} are not those that are marked in it.")


def _late_done(job: JobBefore, done: LateDone) -> None:
    _done(job, done)
    if not done.taken_at:
        raise EntryFault(f"The end of step {done.step} that is entered later must say when it came.")
    moment = datetime.fromisoformat(done.taken_at)
    if moment > datetime.fromisoformat(job.at):
        raise EntryFault(f"The end of step {done.step}, at {done.taken_at}, was still to come then.")
    check_end(job.state, moment, told_on_the_wall(done.taken_at))


def _begun_before(job: JobBefore, begun: BegunBefore) -> None:
    if not begun.began_at:
        raise EntryFault("The hour that a job was begun must be a moment.")
    moment = datetime.fromisoformat(begun.began_at)
    check_began(moment, told_on_the_wall(begun.began_at), job.state.counted.values())


def _strike(job: JobBefore, strike: Struck) -> None:
    """Work logged by the numbers of steps must not come under other steps without what is struck out."""
    found = to_strike(job.state, job.entries, strike.entry)
    later = [other for other in job.state.counted.values() if other.number > found.number]
    if isinstance(found.body, Done) and any(isinstance(other.body, Done) for other in later):
        raise EntryFault(
            f"Entry {found.number} finished step {found.body.step}, and later steps are done since; "
            f"go back through those first."
        )
    put_in = put_in_by(found, job.entries)
    if put_in and any(other.body.of_step > put_in[0].after for other in later):
        raise EntryFault(
            f"Steps were put in after step {put_in[0].after} by that, and work beyond it is logged "
            f"since; strike that out first."
        )
    by_number = {one.number: one.body for one in job.entries}
    body = found.body
    while isinstance(body, Struck):
        body = by_number[body.entry]
    if isinstance(body, Amended) and any(other.body.of_step >= body.step for other in later):
        raise EntryFault(
            f"The recipe was amended from step {body.step} on by that, and work there is logged since; "
            f"strike that out first."
        )


def _went_back(job: JobBefore, went: WentBack) -> None:
    if going_back(job.state) != went:
        raise EntryFault(f"Entry {went.entry} is not the end of the last finished step.")


def _note(_: JobBefore, note: Note) -> None:
    if not note.text.strip():
        raise EntryFault("The note is empty: type what is to be remembered.")


def _late_note(job: JobBefore, note: LateNote | LatePhotograph) -> None:
    if isinstance(note, LateNote):
        _note(job, note)
    check_noted(job.state, note.step, note.taken_at, job.at)


def _thing(job: JobBefore, thing: ToPutRight) -> None:
    state = job.state
    meant = thing_to_put_right(state.plan.as_written, state.step, thing.text, thing.zone or None)
    if meant != thing:
        raise EntryFault(f"{thing.text[:40]!r} would be a thing of another zone or text if it were typed.")


def _put_right(job: JobBefore, righted: PutRight) -> None:
    if all(one.entry != righted.entry for one in rights(job.state)):
        raise EntryFault(f"There is nothing to put right with the number {righted.entry}.")


def _rest(job: JobBefore, rest: Rested) -> None:
    if job.state.step is None:
        raise EntryFault("Every step is done: there is nothing to rest from.")
    advice = held(job.state).reason
    if advice and not rest.forced:
        raise EntryFault(advice)
    if rest.to_json() != Rested(forced=bool(advice), reason=advice).to_json():
        raise EntryFault("The advice that it was put down against is not what speaks against it.")


def _aside(job: JobBefore, _: SetAside) -> None:
    if job.state.status is JobStatus.SET_ASIDE:
        raise EntryFault("The job is set aside already.")


def _brought_back(job: JobBefore, _: BroughtBack) -> None:
    if job.state.status is not JobStatus.SET_ASIDE:
        raise EntryFault("The job is not set aside.")


def _amended(job: JobBefore, amended: Amended) -> None:
    from coach.bench.giving_up import as_meant

    meant = as_meant(job.state, job.entries, amended)
    if meant.cut != amended.cut or not _is_the_same(meant.recipe, amended.recipe):
        raise EntryFault("The recipe that it holds is not what its file's text says in this version.")


def _metal(job: JobBefore, moves: Amends) -> None:
    """No zone gives more than it has, and none gains more than a whole job is made of."""
    now, start_mm3 = job.state.now, job.state.plan.start_mm3
    for zone, gained_mm3, doubt_mm3 in moves.amendment.moved:
        name = volume_name(zone)
        if now is None or name not in now.belief:
            continue  # it is said where it is followed
        there_mm3 = max(start_mm3.get(zone, 0.0), now.belief.mean(name))
        whole_mm3 = max(sum(start_mm3.values()), there_mm3)
        if gained_mm3 < -there_mm3 or not max(gained_mm3, abs(doubt_mm3)) <= whole_mm3:
            raise EntryFault(f"So much metal of the {zone} cannot come or go: the job has not as much.")


def _late_metal(job: JobBefore, moves: LateLoss | LateWayBack) -> None:
    check_in_hand(job.state, moves.taken_at, job.at)
    _metal(job, moves)


def _is_the_same(written: str, held: str) -> bool:
    try:
        return written == held or bool(json.loads(written) == json.loads(held))
    except (ValueError, RecursionError):
        return False


_GATES: Mapping[type[Body], Callable[[JobBefore, Any], None]] = {
    Reading: _reading,
    Corrected: _correction,
    Done: _done,
    LateDone: _late_done,
    BegunBefore: _begun_before,
    LateHeat: _late_heat,
    LateFire: _late_heat,
    Struck: _strike,
    WentBack: _went_back,
    Note: _note,
    LateNote: _late_note,
    LatePhotograph: _late_note,
    ToPutRight: _thing,
    PutRight: _put_right,
    Rested: _rest,
    SetAside: _aside,
    BroughtBack: _brought_back,
    Amended: _amended,
    GivenUp: _amended,
    HandKnown: takes_hand,
    ForgedWith: takes_forged_with,
    ShopKnown: takes_shop,
    LessonLeftOut: takes_lesson,
    MetalLost: _metal,
    WayBackTaken: _metal,
    LateLoss: _late_metal,
    LateWayBack: _late_metal,
}
"""What a kind asks for besides its step; others ask for no more."""
