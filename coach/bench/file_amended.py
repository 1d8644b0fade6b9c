"""A job whose recipe's file was changed since it began: the steps ahead as the file has them now."""

from __future__ import annotations

import json
from collections.abc import Container, Iterator, Sequence
from typing import Final, NamedTuple

from coach.bench.file_matched import (
    BarChanged,
    Matched,
    amended_recipe,
    are_apart,
    bars_changed,
    stands_now,
)
from coach.bench.job_state import JobState
from coach.bench.left_on_rack import LeftOnRack
from coach.bench.standing import Standing
from coach.bench.verdicts import Why
from coach.bench.zones_matched import CannotFollow, PieceChanged, pieces_changed
from coach.forms import listed, said
from coach.ledger.course import ReadingMark
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.verdict import PlanState
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece
from coach.ledger.zone_forecast import Spare
from coach.log.kinds.amended import AS_IN_FILE, Amended
from coach.operations import Does, operation
from coach.operations.measures import MARK
from coach.quantities import (
    NOTHING,
    Figure,
    Kind,
    Limits,
    Wanted,
    Words,
    as_words,
    celsius,
    counted,
    mm,
    run_on,
    say,
)
from coach.recipe.freezing import frozen
from coach.recipe.model import Recipe, Step
from coach.recipe.one_bar import across_others

#: What no scriber shows (judgement).
A_MARK_MOVES_MM: Final = 0.1

#: A file is written to a thousandth of a millimetre, or a ten-thousandth of an inch: less is no change (our
#: choice).
_WRITTEN_TO_MM: Final = 3e-3

#: An allowance is written to a tenth of a per cent: less is no change (our choice).
_LEAST_ALLOWANCE: Final = 5e-4

ADDED, GONE, CHANGED, MOVED = "added", "gone", "changed", "moved"
BATH = "bath"
#: What of a step is told as one thing, when it is otherwise.
_OTHERS: Final = {
    "shape": "another form",
    "free": "another size follows from the metal",
    "amounts": "what it takes",
    "loses": "what it loses",
    "heated": "what lies in the fire with it",
    "quench": "its quench",
    "checks": "its checks",
    "gauge": "its gauge",
    "how": "how it is done",
    "watch": "what to watch for",
    "cautions": "its cautions",
    "may_rest": "its rest",
}


class StepChanged(NamedTuple):
    """One step that the file has otherwise than the job."""

    number: int  # of the job's step now; of one that is added, what it will be
    title: str
    what: str  # added, gone, changed or moved; bath: of a step that may be done, its quench was another
    words: Words  # what is otherwise; empty where it is all of it


class SizeChanged(NamedTuple):
    """One finished size that the file has otherwise."""

    zone: str
    dimension: str
    was: Wanted
    now: Wanted
    works: bool  # whether a step ahead works it still


class GradeChanged(NamedTuple):
    """One piece that is of another steel than was believed."""

    piece: str
    was: str
    now: str


class AllowanceChanged(NamedTuple):
    """One zone of a bar that is not marked out, of which more or less is to be marked out than before."""

    zone: str
    was: float  # of its volume
    now: float


class FileChanges(NamedTuple):
    """What a job's file has otherwise than the job."""

    sizes: tuple[SizeChanged, ...]  # of the drawing
    ahead: tuple[StepChanged, ...]  # what would be taken
    too_late: tuple[StepChanged, ...]  # of what is done: it stays as it was done
    bars: tuple[BarChanged, ...] = ()  # the pieces that are taken from another bar
    grades: tuple[GradeChanged, ...] = ()  # the pieces of another steel
    pieces: tuple[PieceChanged, ...] = ()  # those with other zones, added or gone
    late_bars: tuple[BarChanged, ...] = ()  # the pieces that are begun, and of another bar in the file
    allowances: tuple[AllowanceChanged, ...] = ()  # what is marked out beyond the plan

    @property
    def is_none(self) -> bool:
        """Whether there is nothing to take."""
        of_metal = self.bars or self.grades or self.pieces or self.allowances
        return not (self.sizes or self.ahead or of_metal)

    @property
    def words(self) -> Words:
        """How much it is, in a line."""
        kinds = ADDED, GONE, CHANGED, MOVED
        steps = [sum(one.what == what for one in self.ahead) for what in kinds]
        told = [f"{counted(count, 'step')} {what}" for count, what in zip(steps, kinds, strict=True) if count]
        told += [f"{counted(len(self.sizes), 'size')} of the drawing"] if self.sizes else []
        told += [f"another bar for the {listed([one.piece for one in self.bars])}"] if self.bars else []
        told += [f"the {one.piece} of {one.now}" for one in self.grades]
        told += [_piece_words(one) for one in self.pieces]
        zones = [one.zone for one in self.allowances]
        told += [f"the allowance of {listed(zones)}"] if zones else []
        return as_words(", ".join(told) or "nothing is otherwise")


def _piece_words(one: PieceChanged) -> str:
    if not one.was or not one.now:
        return f"{one.piece} {GONE if one.was else ADDED}"
    return f"{one.piece} with other zones"


class Stands(NamedTuple):
    """How a job stands by one recipe."""

    chance: float  # of making the drawing
    verdict: PlanState
    reason: Why
    heats: int  # planned, in all of its steps
    spares: tuple[Spare, ...]

    @classmethod
    def of(cls, standing: Standing, plan: Plan) -> Stands:
        """How it stands by what was reckoned."""
        heats = sum(step.heats for step in plan.recipe.steps)
        return cls(standing.chance, standing.verdict, standing.reason, heats, standing.spares)


class MarkMoved(NamedTuple):
    """A mark that is not made yet, and will be made elsewhere on its bar."""

    zone: str  # that ends there
    was: Figure | None  # None for a zone that there was not
    now: Figure


class FileAmended(NamedTuple):
    """What a recipe's file would change of a job."""

    changes: FileChanges
    before: Stands
    after: Stands
    marks: tuple[MarkMoved, ...] = ()
    asked: tuple[Words, ...] = ()  # what `coach check` would ask of it, and of the job as it is would not
    title: Words = NOTHING  # what the change is
    rack: tuple[LeftOnRack, ...] = ()  # what is left of the bars there by it, where that is otherwise


def marks_moved(before: JobState, after: JobState) -> tuple[MarkMoved, ...]:
    """The marks that are still to be made and lie elsewhere by another plan, each from its bar's end."""
    was, now = before.start, after.start
    if was is None or now is None or before.step is None or after.step is None:
        return ()
    was = was._replace(across=across_others(before.plan.recipe, before.step))
    now = now._replace(across=across_others(after.plan.recipe, after.step))
    there = [
        zone for zone in now.zones if now.has_mark(zone) and not after.plan.recipe.piece_of(zone).given_up
    ]
    found = [
        MarkMoved(zone, mm(was.size(zone, MARK).value) if zone in was.zones else None, mm(at))
        for zone in there
        if zone not in was.zones or was.has_mark(zone)
        for at in [now.size(zone, MARK).value]
    ]
    known = list(_marks_there(before, was, before.step))
    return tuple(one for one in found if _is_elsewhere(one, known))


def _marks_there(before: JobState, was: Workpiece, step: Step) -> Iterator[float]:
    """Where marks are on the bars, mm: of a bar that is marked out all, of others those that were read."""
    steps = before.plan.recipe.steps[: step.number - 1]
    out = {zone for one in steps if one.does(Does.MARKS_OUT) for zone in one.zones}
    read = {
        one.reading.zone
        for one in before.marks
        if isinstance(one, ReadingMark) and one.reading.dimension == MARK
    }
    yield from (was.size(zone, MARK).value for zone in was.zones if was.has_mark(zone) and zone in out | read)


def _is_elsewhere(mark: MarkMoved, known: Sequence[float]) -> bool:
    """Whether it is not there already; that of a new zone may be there under another name."""
    there = known if mark.was is None else [mark.was.value]
    return all(abs(mark.now.value - one) >= A_MARK_MOVES_MM for one in there)


def asked_anew(old: Plan, new: Plan) -> tuple[Words, ...]:
    """What is asked about the steps of one plan, and not about those of another."""
    from coach.ledger.questions import Question, questions

    def what(plan: Plan, one: Question) -> tuple[str, str, str]:  # a step's number is otherwise by a change
        said = one.sentence.parts[-1] if one.sentence.parts else one.sentence
        title = plan.recipe.steps[one.step - 1].title if one.step else ""
        return title, one.zone, (said if isinstance(said, Words) else one.sentence).template

    was = {what(old, one) for one in questions(old)}
    anew = [one for one in questions(new) if one.step and what(new, one) not in was]
    return tuple(one.sentence for one in anew)


def amendment(state: JobState, new: Recipe, title: Words = NOTHING) -> tuple[Amended, FileChanges]:
    """The entry by which a job follows its file from now on, and what that changes; raises CannotFollow.

    `title` says what the change is, where it is no file that was changed by hand.

    Raises LedgerError where the metal cannot do what the file asks.
    """
    step, done = state.step, len(state.records)
    if step is None:
        raise CannotFollow("Every step of this job is done: nothing is ahead that a file could change.")
    old = state.plan
    matched = amended_recipe(old.as_written, new, done, begun=state.is_begun, waiting=state.waiting)
    _check_waiting(state, step, matched)
    plan = look_back(matched.recipe)
    changes = changes_between(old.as_written, plan.as_written, new, matched, done)
    body = Amended(
        title=title or say(AS_IN_FILE, step.number),
        changes=changes.words,
        step=step.number,
        cut=matched.cut,
        source=new.source,
        text=new.text,
        recipe=json.dumps(frozen(plan.as_written), ensure_ascii=False, allow_nan=False),
    )
    return body, changes


def _check_waiting(state: JobState, in_hand: Step, matched: Matched) -> None:
    """Raise CannotFollow where what is entered for a step that waits would be lost, or come in another order.

    What waits on other pieces is let be: those lie there as they are.
    """
    steps = state.plan.recipe.steps
    now = matched.recipe.steps
    for number in sorted(state.waiting, reverse=True):
        apart = all(
            are_apart(steps[number - 1], other)
            for other in (in_hand, *(steps[one - 1] for one in state.waiting if one != number))
        )
        if not apart or stands_now(steps, now, number) is None:
            raise CannotFollow(
                "This job was taken back to step {}, and step {} still holds what was entered for it before: "
                "go on to step {} again, then change what is ahead.",
                *(in_hand.number, number, number),
            )


# ── what is otherwise ───────────────────────────────────────────────────────────────────────────────


def changes_between(old: Recipe, now: Recipe, new: Recipe, matched: Matched, done: int) -> FileChanges:
    """What the job has (`old`), what it would follow (`now`), and what stands in the file (`new`)."""
    ahead, late = list[StepChanged](), list[StepChanged]()
    for at, step in enumerate(old.steps):
        in_file = matched.to_file.get(at)
        rows = late if at < done else ahead
        if in_file is None or (at >= done and in_file < matched.cut):
            rows.append(StepChanged(step.number, step.title, GONE, NOTHING))
            continue
        other = new.steps[in_file] if at < done else now.steps[done + in_file - matched.cut]
        # What is said at the first fire alone goes over to another step with the order: that is no change.
        besides = {"cautions"} if matched.moved else set[str]()
        if step.zones != other.zones:  # a piece that is parted otherwise is marked out so: that is told of it
            besides |= {"heated", "checks"}
        words = run_on(_otherwise(step, other, besides=besides), "; ")
        if at in matched.moved:
            rows.append(StepChanged(step.number, step.title, MOVED, _now_step(other, words)))
        elif words:
            rows.append(StepChanged(step.number, step.title, CHANGED, words))
    known = set(matched.to_file.values())
    for at, step in enumerate(new.steps):
        if at not in known:
            number = done + at - matched.cut + 1 if at >= matched.cut else at + 1
            rows = ahead if at >= matched.cut else late
            rows.append(StepChanged(number, step.title, ADDED, NOTHING))
    ahead.sort(key=lambda one: one.number)
    bars = bars_changed(old, now, matched.parted)
    grades = tuple(_grades(old, now))
    sizes, pieces = tuple(_sizes(old, now, done)), pieces_changed(old, now)
    late_bars = bars_changed(old, new, matched.parted, late=True)
    allowances = tuple(_allowances(old, now, done))
    return FileChanges(sizes, tuple(ahead), tuple(late), bars, grades, pieces, late_bars, allowances)


def _grades(old: Recipe, now: Recipe) -> Iterator[GradeChanged]:
    for name, piece in old.pieces.items():
        if name in now.pieces and now.pieces[name].metal != piece.metal:
            yield GradeChanged(name, piece.metal, now.pieces[name].metal)


def _allowances(old: Recipe, now: Recipe, done: int) -> Iterator[AllowanceChanged]:
    """What is marked out beyond the plan, of bars that nothing was done to: what is marked stays."""
    begun = {old.piece_of(zone).name for step in old.steps[:done] for zone in step.zones}
    for zone, drawn in now.drawing.items():
        was = old.drawing.get(zone)
        if was is None or now.piece_of(zone).name in begun:
            continue
        if abs(drawn.allowance_share - was.allowance_share) >= _LEAST_ALLOWANCE:
            yield AllowanceChanged(zone, was.allowance_share, drawn.allowance_share)


def _now_step(other: Step, words: Words) -> Words:
    """Where a step stands that is done in another order, and what else of it is otherwise."""
    return run_on((say("now step {}", other.number), words), "; ")


def _sizes(old: Recipe, now: Recipe, done: int) -> Iterator[SizeChanged]:
    ahead = {zone for step in now.steps[done:] for zone in step.zones if reshapes(step, zone)}
    for zone, drawn in now.drawing.items():
        for name, limits in drawn.limits.items():
            was = old.drawing[zone].limits.get(name) if zone in old.drawing else None
            if was is not None and not _are_same(was, limits):
                yield SizeChanged(zone, name, Wanted(was), Wanted(limits), zone in ahead)


def _are_same(one: Limits, other: Limits) -> bool:
    """Whether they are so as far as a file writes them."""
    bounds = ((one.nominal, other.nominal), (one.low, other.low), (one.high, other.high))
    return all(was == now or abs(was - now) <= _WRITTEN_TO_MM for was, now in bounds)


def _otherwise(old: Step, new: Step, *, besides: Container[str] = ()) -> Iterator[Words | str]:
    """What one step says otherwise than another of the same work."""
    todo = operation(new.operation)
    if old.title != new.title:
        yield f"called {new.title}"
    for name in dict.fromkeys((*old.targets, *new.targets)):
        was, now = old.targets.get(name), new.targets.get(name)
        kind = todo.kind_of(name) or Kind.LENGTH
        if now is None:
            yield f"no {said(name)} any more"
        elif was is None:
            yield say("{} {}", said(name), Wanted(now, kind))
        elif not _are_same(was, now):
            yield say("{} {}, was {}", said(name), Wanted(now, kind), Wanted(was, kind))
    if new.heats_said and old.heats != new.heats:
        yield f"{counted(new.heats, 'heat')}, was {old.heats}"
    if old.temperature_c != new.temperature_c and new.temperature_c is not None:
        yield say("at {}", celsius(new.temperature_c))
    elif old.colour != new.colour:
        yield f"at {new.colour}" if new.colour else "no colour any more"
    for name, what in _OTHERS.items():
        if name not in besides and getattr(old, name) != getattr(new, name):
            yield what
