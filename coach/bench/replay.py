"""What a job's entries lead to, replayed from the first or carried on by one more."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from coach.bench.as_marked import with_marks_moved
from coach.bench.begun_with import begun_by, known_in, start_by
from coach.bench.drawn import made_old
from coach.bench.file_matched import drawn_anew, followed_from
from coach.bench.fire_clock import minutes_hot_before, seconds_between
from coach.bench.given_up import lies_as_bar
from coach.bench.happened import as_it_happened, corrections, moment_of
from coach.bench.job_state import JobState, StepRecord
from coach.bench.parted import state_parted_anew
from coach.bench.progress import struck_numbers
from coach.bench.waiting_pieces import in_order, start_marked_anew
from coach.bench.zones_matched import begun_of, parted_between
from coach.forms import FormError
from coach.ledger.amended import amended_plan
from coach.ledger.amendment import Amendment, NewBath
from coach.ledger.course import AmendmentMark, HeatMark, Mark, ReadingMark, heats_in
from coach.ledger.ended import ended
from coach.ledger.judging import beside_its_quench
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading as SizeRead
from coach.ledger.sent_back import with_sent_back
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece, at_stock
from coach.log.amends import Amends
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.done import Done
from coach.log.kinds.fire import BackInFire
from coach.log.kinds.given_up import GivenUp
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.heat import Heat
from coach.log.kinds.late_heat import LateHeat
from coach.log.kinds.metal_lost import MetalLost
from coach.log.kinds.quenched_in import QuenchedIn
from coach.log.kinds.reading import Reading
from coach.log.kinds.rested import Rested
from coach.log.kinds.shop_known import ShopKnown
from coach.operations.does import Does, HeatKind
from coach.operations.gauges import gauge_then
from coach.quantities import Refusal, Words, as_words, say


def replay(plan: Plan, entries: Iterable[Entry]) -> JobState:
    """The state that a job's entries lead to.

    An entry that cannot be reckoned with, from whatever cause, is left out as if it were struck out.
    """
    listed = list(entries)
    try:
        state = _replayed(plan, listed, {})
        state.forecast()  # what cannot be reckoned comes to light here at the latest
    except Exception:  # a log may hold what an earlier version, another program or a hand has written
        state = _what_can_be_replayed(plan, listed)
    return state


def _replayed(plan: Plan, listed: Sequence[Entry], left_out: Mapping[int, Words]) -> JobState:
    """The state that the entries lead to.

    What is entered late of an early step is older than what was read since: where a later reading of the
    zone cannot be believed beside it, the late one is questioned.
    """
    state = _carried(plan, listed, left_out, frozenset())
    suspects: frozenset[int] = frozenset()
    for entry in reversed(listed):
        late = entry.body
        if not isinstance(late, Reading) or not late.taken_at or entry.number not in state.counted:
            continue
        if late.insisted:  # it was stood by, whatever was read since
            continue
        if against := _speak_against(state, entry.number, late):
            suspects |= {entry.number}  # with those entered after it: two alike are no better than one
            tried = _carried(plan, listed, left_out, suspects)
            if not against <= _speak_against(tried, entry.number, late):
                state = tried
    return state


def _speak_against(state: JobState, number: int, late: Reading) -> frozenset[int]:
    """The readings of the zone at later steps, entered before this late one, that are questioned."""
    return frozenset(
        one.mark.entry
        for course in state.courses()
        if course.step.number > late.step
        for one in course.outcomes
        if one.questioned and one.mark.entry < number and one.mark.reading.zone == late.zone
    )


def _carried(
    plan: Plan, listed: Sequence[Entry], left_out: Mapping[int, Words], doubted: frozenset[int]
) -> JobState:
    out = struck_numbers(listed) | left_out.keys()
    state = JobState(plan, plan, start=at_stock(plan), left_out=dict(left_out), doubted=doubted)
    corrected = corrections(listed, out)
    for entry in as_it_happened(listed, out):
        apply(state, corrected.get(entry.number, entry))
    return state


def _what_can_be_replayed(plan: Plan, listed: Sequence[Entry]) -> JobState:
    """The state that is left when each entry is tried in its turn, and left out where it fails."""
    state = JobState(plan, plan, start=at_stock(plan))
    for at, entry in enumerate(listed, 1):
        try:
            changes = entry.body.changes_earlier
            tried = _replayed(plan, listed[:at], state.left_out) if changes else after(state, entry)
            tried.forecast()
        except Exception as error:
            why = error.words if isinstance(error, Refusal) else as_words(type(error).__name__)
            state.left_out[entry.number] = why
        else:
            state = tried
    return state


def after(state: JobState, entry: Entry) -> JobState:
    """Another state, which one more entry leads to that changes none before it."""
    following = replace(
        state,
        counted={**state.counted},
        records=[*state.records],
        marks=[*state.marks],
        waiting={number: [*marks] for number, marks in state.waiting.items()},
        left_out={**state.left_out},
    )
    apply(following, entry)
    return following


def apply(state: JobState, entry: Entry) -> None:
    """Carry one entry that counts into a state."""
    state.forget_what_was_reckoned()
    match entry.body:
        case Reading() as read:
            gauge = gauge_then(read.gauge, read.doubts)
            heat = read.hot_c, read.hot_doubt_c
            size = SizeRead(read.zone, read.dimension, read.size, read.gauge, *heat, then=gauge)
            step = state.waits_for((read.zone,)) or read.step
            there = state.plan.recipe
            if read.zone in there.drawing or read.zone in there.pieces:
                _mark(state, step, ReadingMark(entry.number, size, read.insisted))
            else:  # seen from a plan that parts its bar otherwise
                state.left_out[entry.number] = say("there is no {} any more", read.zone)
        case HandKnown() | ShopKnown() as known:
            _know(state, entry.number, known)
        case LateHeat() as late:
            at = late.taken_at if late.timed else ""
            minutes = _minutes_hot(state, late.step, at) if at else None
            lay_s = seconds_between(state.in_at, at) if at and state.in_at else None
            _mark(state, late.step, HeatMark(entry.number, minutes, lay_s))
            if at:
                state.out_at, state.in_at = at, ""
        case Heat() as heat:
            _back_in(state, heat.step)
            if heat.FIRE_WAS_OUT:
                state.in_at = ""
            lay_s = seconds_between(state.in_at, entry.at) if state.in_at else None
            minutes = _minutes_hot(state, heat.step, entry.at)
            _mark(state, heat.step, HeatMark(entry.number, minutes, lay_s))
            state.out_at, state.in_at = entry.at, ""
        case BackInFire() as back:
            _back_in(state, back.step)
            state.in_at = moment_of(entry)
        case Rested():
            state.out_at = state.in_at = ""
        case Done() as done if state.step is not None and state.step.number == done.step:
            # One that was struck out and brought back again may find another step in hand: it says nothing.
            _finish(state, entry.number, done)
            _let_the_fire_go(state)
        case Amends() as way:
            _take(state, entry.number, way)
        case Amended() as amended:
            _amend(state, entry.number, amended)
        case QuenchedIn() as quenched:
            _quench(state, entry.number, quenched)
    if isinstance(entry.body, Heat | LateHeat | Done):
        state.records = made_old(state.records, state.undone())
    state.status = state.status.once(entry.body.AFTER, finished=state.step is None)
    if entry.number not in state.left_out:
        state.counted[entry.number] = entry


def _know(state: JobState, number: int, known: HandKnown | ShopKnown) -> None:
    """Begin with what is known from other jobs; once anything was done of the job it says nothing."""
    if state.start is None or state.records or state.marks:
        state.left_out[number] = as_words("what is known from other jobs counts before anything was done")
    else:
        state.start = start_by(state.start, known)


def _back_in(state: JobState, number: int) -> None:
    """The piece is in the fire again: a heat that was too short to quench from was sent back there."""
    if state.step is not None and state.step.number == number:
        state.marks = with_sent_back(state.step, state.marks)


def _let_the_fire_go(state: JobState) -> None:
    """Once a cold step is done, nobody means the fire that the piece was in before it."""
    *earlier, last = state.records
    if last.heats or last.step.heat_kind is not HeatKind.COLD:
        return
    began = state.counted.get(earlier[-1].done_entry or 0) if earlier else None
    if began is not None and max(state.in_at, state.out_at) <= moment_of(began):
        state.out_at = state.in_at = ""


def _minutes_hot(state: JobState, number: int, out_at: str) -> float | None:
    return minutes_hot_before(state.plan, number, state.out_at, state.in_at, out_at)


def _take(state: JobState, entry: int, way: Amends) -> None:
    """From here on the job follows the plan as the entry changes it."""
    try:
        state.plan = amended_plan(state.plan, way.amendment)
    except (LedgerError, FormError) as error:
        state.left_out[entry] = error.words
        return
    again = way.amendment.again
    moved = {number: number + sum(one.after < number for one in again) for number in state.waiting}
    state.waiting = {moved[number]: marks for number, marks in state.waiting.items()}
    # What was read of a piece that is cut anew tells nothing of the metal that the job goes on with.
    anew = {one.zone for one in way.amendment.cut_anew}
    state.marks = [mark for mark in state.marks if not _is_read_of(mark, anew)]
    cut = {state.plan.recipe.piece_of(zone).name for zone in anew}
    step = (state.waits_for((way.zone,)) if isinstance(way, MetalLost) else None) or way.step
    mark = AmendmentMark(entry, way.amendment, is_loss=isinstance(way, MetalLost))
    taken_in = state.plan.recipe.steps[step - 1]
    state.marked_by = {
        piece: with_marks_moved(by, taken_in, [mark])
        for piece, by in state.marked_by.items()
        if piece not in cut
    }
    _mark(state, step, mark)
    if way.amendment.is_of_drawing and state.start is not None and state.step is not None:
        # Bars that are not marked yet will be marked as the drawing has them now, as for a haft.
        finished = [one.step for one in state.records]
        state.start = start_marked_anew(state.start, state.plan, finished, state.step, state.marks)


def _quench(state: JobState, entry: int, quenched: QuenchedIn) -> None:
    """From its step on the job goes by the bath that was really used."""
    steps = state.plan.recipe.steps
    if quenched.step > len(steps) or not steps[quenched.step - 1].does(Does.QUENCHES):
        state.left_out[entry] = say("step {} quenches nothing", quenched.step)
        return
    bath = NewBath(quenched.step, quenched.quench)
    try:
        state.plan = amended_plan(state.plan, Amendment(baths=(bath,)))
    except (LedgerError, FormError) as error:
        state.left_out[entry] = error.words


def _is_read_of(mark: Mark, zones: Collection[str]) -> bool:
    return isinstance(mark, ReadingMark) and mark.reading.zone in zones


def _amend(state: JobState, entry: int, amended: Amended) -> None:
    """The recipe's file was taken anew: from here on the job follows that."""
    done, begun = len(state.records), state.is_begun
    began, was, drawn = state.plan.recipe, state.plan.recipe.steps, state.plan.recipe.drawing
    entered_in = begun_of(began, done, begun=begun, waiting=state.waiting)
    try:
        plan = followed_from(state.plan, amended, done, begun=begun, waiting=state.waiting)
        parted = parted_between(began, plan.recipe, entered_in)
        state.plan = plan
    except (Refusal, FormError) as error:
        state.left_out[entry] = error.words
    except Exception:  # whatever a recipe may be that none of our readers has read
        state.left_out[entry] = as_words("it holds a recipe that nothing can be reckoned with")
    else:
        held = {**({done + 1: state.marks} if begun else {}), **state.waiting}
        state.waiting = in_order(was, state.plan.recipe.steps, held)
        state.redrawn = {**state.redrawn, **drawn_anew(drawn, state.plan.recipe.drawing)}
        given_up = amended.piece if isinstance(amended, GivenUp) else ""
        own = {*began.pieces[given_up].every_zone} if given_up else set[str]()
        of_it = done < len(was) and bool({*was[done].zones} & own)
        tried = [] if begun or of_it else state.marks
        state.marks = [*tried, *state.waiting.pop(done + 1, [])]
        if (parted.pieces or parted.gone) and not entered_in:
            _begin_from_another_bar(state)
        elif not parted.is_none:
            state_parted_anew(state, parted)
        if state.start is not None and given_up:
            state.start = lies_as_bar(state.start, state, given_up)
        if state.start is not None and state.step is not None:
            finished = [one.step for one in state.records]
            state.start = start_marked_anew(state.start, state.plan, finished, state.step, state.marks)


def _begin_from_another_bar(state: JobState) -> None:
    """Another bar lies there: what was marked on the first says nothing of it, and the plan is that of it."""
    state.first_plan = state.plan
    state.start = begun_by(at_stock(state.plan), known_in(state.counted.values()))
    state.marks = [mark for mark in state.marks if not isinstance(mark, ReadingMark)]


def _mark(state: JobState, number: int, mark: Mark) -> None:
    """A heat or a reading goes to its own step; after going back it waits there for that step."""
    if state.step is not None and number > state.step.number:
        state.waiting.setdefault(number, []).append(mark)
    elif state.step is None:  # a finished tool is measured, and changed, as it lies there
        last = state.records.pop()
        _end(state, last._replace(marks=(*last.marks, mark)), last.course.start if last.course else None)
    else:
        state.marks.append(mark)


def _finish(state: JobState, entry: int, done: Done) -> None:
    assert state.step is not None
    # Those that were marked are counted again, for one of them may have been struck out since.
    # Those that were entered since it was done stand in the place of what was taken for granted then: it was
    # only where none was marked by its end.
    late = sum(
        isinstance(one.body, LateHeat) and one.body.step == done.step and one.number > entry
        for one in state.counted.values()
    )
    granted = not done.told and late > 0 and state.heats == late and done.heats == state.step.heats
    told = late if granted else done.heats + late
    counted = state.heats if done.marked else told
    if state.step.does(Does.MARKS_OUT):
        by = with_marks_moved(state.plan, state.step, state.marks)
        pieces = {state.plan.recipe.piece_of(zone).name for zone in state.step.zones}
        state.marked_by = {**state.marked_by, **dict.fromkeys(pieces, by)}
    _end(state, StepRecord(state.step, tuple(state.marks), None, counted, entry), state.start)
    state.marks = state.waiting.pop(done.step + 1, [])


def _end(state: JobState, record: StepRecord, start: Workpiece | None) -> None:
    """A step followed to its end from the workpiece before it; the reckoning stops where that cannot be."""
    course = None
    if start is not None:
        step = state.plan.recipe.steps[record.step.number - 1]
        more = max(0, record.heats - heats_in(record.marks))
        try:
            course = ended(
                state.plan,
                start,
                step,
                record.marks,
                unmarked=more,
                doubted=state.doubted,
                undone=state.undone(),
            )
            course = beside_its_quench(state.plan, course, [one.course for one in state.records])
        except (LedgerError, FormError) as error:
            state.trouble = error.words
    state.records.append(record._replace(course=course, plan=state.plan))
    state.start = course.now if course is not None else None
