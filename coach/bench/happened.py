"""The entries of a job in the order in which things happened, which is not always that of their typing."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from datetime import datetime

from coach.log.amends import Amends
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.began import Began
from coach.log.kinds.begun_before import BegunBefore
from coach.log.kinds.corrected import Corrected
from coach.log.kinds.done import Done
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.late_done import LateDone
from coach.log.kinds.late_fire import LateFire
from coach.log.kinds.late_heat import LateHeat
from coach.log.kinds.late_loss import LateLoss
from coach.log.kinds.late_note import LateNote
from coach.log.kinds.late_photograph import LatePhotograph
from coach.log.kinds.late_way_back import LateWayBack
from coach.log.kinds.quenched_in import QuenchedIn
from coach.log.kinds.reading import Reading
from coach.log.kinds.shop_known import ShopKnown
from coach.operations.measures import MARK

#: What is put where it was taken, by the moment that it carries.
_Placed = Reading | LateHeat | LateFire | LateLoss | LateWayBack | LateNote | LatePhotograph


def as_it_happened(entries: Sequence[Entry], out: Collection[int]) -> list[Entry]:
    """The entries that count, each that was entered later where it was taken."""
    counted = [entry for entry in entries if entry.number not in out]
    late = [entry for entry in counted if _belongs_at(entry)]
    happened = [entry for entry in counted if entry not in late] if late else counted
    for entry in [one for one in happened if isinstance(one.body, Reading) and one.body.dimension == MARK]:
        _back_to_the_marks(happened, entry)
    for entry in late:
        made_anew = _back_to_the_marks(happened, entry) if isinstance(entry.body, Reading) else 0
        step, belongs_at = entry.body.of_step, _belongs_at(entry)
        ends = {one.body.step: at for at, one in enumerate(happened) if isinstance(one.body, Done)}
        before = ends.get(step - 1, 0) if step else max(ends.values(), default=0)  # 0: every step was done
        first = max(before + 1, made_anew, _after_what_is_known(happened), _after_its_plan(happened, entry))
        last = ends.get(step, len(happened))
        if isinstance(entry.body, LateHeat) and not entry.body.timed and step in ends:
            last = _before_its_readings(happened, first, last)
        then = datetime.fromisoformat(belongs_at)
        later = (at for at in range(first, last) if datetime.fromisoformat(_at(happened[at])) > then)
        happened.insert(next(later, max(first, last)), entry)
    for entry in [one for one in happened if isinstance(one.body, QuenchedIn)]:
        _to_its_quench(happened, entry)
    return happened


def _to_its_quench(happened: list[Entry], entry: Entry) -> None:
    """A bath that is told once its step is done counts before the end of that."""
    ends = [isinstance(one.body, Done) and one.body.step == entry.body.of_step for one in happened]
    if any(ends[: happened.index(entry)]):
        happened.remove(entry)
        happened.insert(ends.index(True), entry)


def _after_what_is_known(happened: Sequence[Entry]) -> int:
    """The place after the hand and the shop's figures that a job began with: no work of it is older.

    They were known as it began, whenever that was, though the hours of the work may be before their typing.
    """
    work = next((at for at, one in enumerate(happened) if one.body.of_step), len(happened))
    known = (at for at in range(work) if isinstance(happened[at].body, HandKnown | ShopKnown))
    return max(known, default=0) + 1


def _after_its_plan(happened: Sequence[Entry], late: Entry) -> int:
    """The place after the last change by which the step of what is entered late has its number; 0 for none.

    What is typed after a change speaks of the steps as they are numbered by then, whatever hour it is of.
    """
    step = late.body.of_step
    numbered = (
        at
        for at, one in enumerate(happened, 1)
        if step and one.number < late.number and _numbers_anew(one.body, step)
    )
    return max(numbered, default=0)


def _numbers_anew(body: Body, step: int) -> bool:
    if isinstance(body, Amended):
        return 0 < body.step <= step
    return isinstance(body, Amends) and any(one.after < step for one in body.amendment.again)


def _before_its_readings(happened: Sequence[Entry], first: int, last: int) -> int:
    """Where a heat of a finished step lies that says no time: before what was read at its end.

    That was read of the finished work, as after heats that nobody marked. What was itself entered later
    stands before it where it was typed before it.
    """
    while last > first:
        before = happened[last - 1]
        if not isinstance(before.body, Reading) or _belongs_at(before):
            break
        last -= 1
    return last


def _back_to_the_marks(happened: list[Entry], entry: Entry) -> int:
    """A mark that is read at the mark-out after a way back has made it anew is read where it lies now.

    So the way back counts from the mark-out on, and the metal that it moves is not counted twice. Returns the
    least place that the reading may have; 0 where it may have any.
    """
    read, least = entry.body, 0
    assert isinstance(read, Reading)
    if read.dimension != MARK:
        return least
    for way in [one for one in happened if one.number < entry.number]:
        if not isinstance(way.body, Amends):
            continue
        if any((one.zone, one.dimension) == (read.zone, MARK) for one in way.body.amendment.regained):
            at = happened.index(way)
            if way.body.step > read.step:
                steps = [one.body.step if isinstance(one.body, Done) else 0 for one in happened[:at]]
                del happened[at]
                at = steps.index(read.step) if read.step in steps else at
                happened.insert(at, way._replace(body=way.body.replaced(step=read.step)))
            least = max(least, at + 1)
    return least


def until_then(entries: Sequence[Entry], counted: Sequence[Entry], moment: datetime) -> list[Entry]:
    """The entries of a job as it stood at a moment of the step in hand, in the order of their typing.

    `counted` are those that count, as they happened; what a reading was corrected to counts from the first.
    """
    done = [at for at, one in enumerate(counted, 1) if isinstance(one.body, Done)]
    in_hand = counted[done[-1] - 1].body.of_step + 1 if done else 1
    numbered = (at for at, one in enumerate(counted, 1) if _numbers_anew(one.body, in_hand))
    first = max(done[-1] if done else 0, _after_what_is_known(counted), *numbered)
    later = (at for at in range(first, len(counted)) if datetime.fromisoformat(_at(counted[at])) > moment)
    there = {one.number for one in counted[: next(later, len(counted))]}
    return [
        one for one in entries if (one.body.entry if isinstance(one.body, Corrected) else one.number) in there
    ]


def corrections(entries: Sequence[Entry], out: Collection[int]) -> dict[int, Entry]:
    """The readings that were corrected, by their number, as they count now."""
    by_number = {entry.number: entry for entry in entries}
    found: dict[int, Entry] = {}
    for entry in entries:
        if isinstance(entry.body, Corrected) and entry.number not in out:
            was = by_number[entry.body.entry]
            assert isinstance(was.body, Reading)
            found[was.number] = was._replace(body=entry.body.applied_to(was.body))
    return found


def began_at(entries: Iterable[Entry]) -> str:
    """When a job of these entries began: as it was said, else when it was entered."""
    first, *others = entries
    said = [one.body.began_at for one in others if isinstance(one.body, BegunBefore)]
    return said[-1] if said else first.at


def moment_of(entry: Entry) -> str:
    """When what an entry tells of happened: as it was said, else when it was entered."""
    return entry.body.taken_at if isinstance(entry.body, LateDone) else _at(entry)


def is_taken_then(entry: Entry) -> bool:
    """Whether an entry says itself when that was which it tells of."""
    return isinstance(entry.body, LateDone) or bool(_belongs_at(entry))


def moments_of_work(counted: Iterable[Entry]) -> list[tuple[str, Entry]]:
    """The entries of a job that tell of work, in the order of their moments; the job's beginning is one.

    `counted` are those that count, as they happened. What was entered in the evening, of a step whose end is
    told, happened by then.
    """
    listed = list(counted)
    moments, found = happened_by(listed), []
    for entry in listed:
        if isinstance(entry.body, Began):
            found.append((began_at(listed), entry))
        elif entry.body.IS_WORK or entry.body.AFTER is not None:
            found.append((moments[entry.number], entry))
    return sorted(found, key=lambda one: datetime.fromisoformat(one[0]))


def worked_at(counted: Iterable[Entry]) -> str:
    """When a job was worked, put down or taken up last: as it was said, else when it was entered.

    `counted` are those that count, as they happened. What is only noted of it tells of no work.
    """
    return moments_of_work(counted)[-1][0]


def happened_by(counted: Iterable[Entry]) -> dict[int, str]:
    """By the number of each entry, the moment of what it tells of: no later than a told end of its step.

    `counted` are those that count, as they happened.
    """
    moments, ends = {}, ""
    for entry in reversed(list(counted)):
        at = moment_of(entry)
        if isinstance(entry.body, LateDone):
            ends = at
        moments[entry.number] = min(at, ends, key=datetime.fromisoformat) if ends else at
    return moments


def is_put_down_later(entries: Iterable[Entry]) -> bool:
    """Whether hours of the job are as they were said, and not as it was entered."""
    return any(isinstance(one.body, BegunBefore) or is_taken_then(one) for one in entries)


def _at(entry: Entry) -> str:
    return _belongs_at(entry) or entry.at


def said_at(body: Body) -> str:
    """When it happened that an entry tells of, where a smith has said so; else ""."""
    if isinstance(body, LateHeat) and not body.timed:
        return ""
    return body.taken_at if isinstance(body, LateDone | _Placed) else ""


def _belongs_at(entry: Entry) -> str:
    """The moment that what was entered later is put to, said or not; else ""."""
    return entry.body.taken_at if isinstance(entry.body, _Placed) else ""
