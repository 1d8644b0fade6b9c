"""The skin of each steel as a job stands, and whether what will be ground off is enough."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from coach.forms import said
from coach.ledger.course import AmendmentMark, Course, HeatMark, Mark, ReadingMark
from coach.ledger.plan import Plan
from coach.ledger.skinning import Grinding, ReadOver, Skin, ground_off, skins, told_upwards_mm
from coach.ledger.verdict import Verdict
from coach.ledger.zone_forecast import expected_size
from coach.metals.skin import FINISH_MM
from coach.operations import Does, operation
from coach.quantities.figure import Figure, Kind, mm
from coach.quantities.words import NOTHING, Words, say

if TYPE_CHECKING:
    from coach.bench.job_state import JobState

#: Less skin than this is taken off by the first strokes of a file (judgement).
WORTH_TELLING_MM = 0.05


class SteelSkin(NamedTuple):
    """The skin of a steel that the fire has taken the carbon out of."""

    steel: str  # the zone that brought the steel
    zone: str  # where it is now
    metal: str
    now: Figure  # deep on each face, as far as the job has gone
    end: Figure  # deep in the end, if nothing were ground off
    ground_in: int | None  # the last step behind that ground it off; None where none did, or one is ahead
    step: int | None  # the step that grinds it off; behind where that was too little; None where none says so
    at_grinding: Figure | None  # deep on each face when it is ground off
    dimension: str | None  # of the zone, where it is ground off
    ground: Figure | None  # ground off that dimension, as it is now expected
    needed: Figure | None  # what should be
    enough: bool | None  # whether that is ground off
    left: Figure | None = None  # deeper in the end than planned, and no step ahead grinds it off; else `null`
    faces: int | None = None  # of the steel that carry a skin where it is ground off; `null` without that

    @property
    def lacks_mm(self) -> float:
        """How much more should be ground off, as it is told; 0 where enough is."""
        if self.enough is not False or self.ground is None or self.needed is None:
            return 0.0
        return told_upwards_mm(self.needed.value - self.ground.value)

    @property
    def should(self) -> Figure | None:
        """What should be ground off, as it is told: no less than it is."""
        return None if self.needed is None else mm(told_upwards_mm(self.needed.value))

    @property
    def is_ground(self) -> Figure | None:
        """What is ground off; where that is too little, so that it is told less than what should be."""
        lacks_mm = self.lacks_mm
        return mm(self.should.value - lacks_mm) if lacks_mm and self.should is not None else self.ground

    @property
    def deep(self) -> Figure | None:
        """How deep it is where it is ground off; finer where what is lacking is told beside it."""
        deep = self.at_grinding
        return deep._replace(kind=Kind.FINE) if deep is not None and self.lacks_mm else deep

    @property
    def was_ground(self) -> bool:
        """Whether the step that grinds it off is behind, and took too little."""
        return self.step is not None and self.step == self.ground_in

    @property
    def on_faces(self) -> str:
        """On how many faces it lies where it is ground off; nothing on one."""
        return f" on each of {self.faces} faces" if self.faces is not None and self.faces > 1 else ""


def planned_skins(plan: Plan) -> tuple[SteelSkin, ...]:
    """Every steel's skin with everything going as planned."""
    return tuple(map(_told, skins(plan)))


def skins_in_hand(state: JobState) -> tuple[SteelSkin, ...]:
    """Every steel's skin as far as the job has gone, and whether what will be ground off is enough."""
    planned = {skin.steel: skin.left_mm for skin in skins(state.first_plan)}
    told = []
    for skin in _in_hand(state):
        one = _told(skin, _ground_short(state, skin))
        more_mm = skin.left_mm - planned.get(skin.steel, 0.0)
        was_ground = skin.grinding is None and skin.ground_in is not None
        if was_ground and one.step is None and more_mm >= FINISH_MM and not _is_proved(state, skin.zone):
            one = one._replace(enough=False, left=mm(skin.left_mm))
        if skin.now_mm >= WORTH_TELLING_MM or one.enough is False:
            told.append(one)
    return tuple(told)


def _is_proved(state: JobState, zone: str) -> bool:
    """Whether the steel was found hard since the last fire that was put in: a file skates on no soft skin."""
    proved = False
    for course in state.courses():
        if course.step.again and zone in (*course.step.zones, *course.step.heated):
            proved = False
        last = {one.mark.reading[:2]: one for one in course.outcomes if one.counts}
        read = (last.get((zone, dimension)) for dimension in ("file_test", "hardness"))
        proved |= any(one is not None and one.verdict is Verdict.GOOD for one in read)
    return proved


def short_skins(state: JobState) -> tuple[Skin, ...]:
    """Every skin that goes deeper than what will be ground off it, or was."""
    return tuple(
        skin
        for skin in _in_hand(state)
        if _ground_short(state, skin) or ((off := skin.grinding) and not off.is_enough)
    )


def _ground_short(state: JobState, skin: Skin) -> Grinding | None:
    """The step behind that took too little off a skin, where none ahead takes the rest."""
    off = skin.behind
    if off is None or off.is_enough or skin.grinding is not None or _is_proved(state, skin.zone):
        return None
    return off


def _in_hand(state: JobState) -> Iterator[Skin]:
    """Every steel's skin as far as the job has gone, with what will be ground off it as things stand."""
    minutes: dict[int, Sequence[float | None]] = {
        record.step.number: _minutes(record.marks, record.heats) for record in state.records
    }
    step, read_over = state.step, dict(_read_over(state))
    if step is not None:
        minutes[step.number] = _minutes(state.marks, state.heats)
    for number in read_over.keys() & minutes.keys():
        minutes[number] = minutes[number] or [None]  # what was read of a heat, it had
    found = skins(state.plan, len(state.records), minutes, read_over, dict(_ground(state)))
    return (_as_expected(state, skin) for skin in found)


def _ground(state: JobState) -> Iterator[tuple[tuple[int, str, str], float]]:
    """What the steps behind ground off, mm, by step, zone and dimension.

    By the size before and the size left. A length that the stone brings home finds what the recipe's own skin
    leaves on it, as it does ahead.
    """
    for record in state.records:
        step, course = record.step, record.course
        if course is None or not operation(step.operation).FIXES:
            continue
        for zone, stage in state.plan.by_step[step.number].items():
            off = ground_off(stage)
            if off is None or off[0] == "length" or zone not in course.start.zones:
                continue
            before, left_mm = (
                expected_size(course.start, zone, off[0]),
                _left_since(state, course, zone, off[0]),
            )
            if before is not None and left_mm is not None:
                gone_mm = before.value - left_mm - step.amounts.get("iron_side_mm", 0.0)
                yield (step.number, zone, off[0]), max(gone_mm, 0.0)


def _left_since(state: JobState, course: Course, zone: str, dimension: str) -> float | None:
    """What a step left of a size, mm, less what was ground off it by hand since; scale does not count."""
    left, scaled_mm = expected_size(course.now, zone, dimension), 0.0
    later = [record.course for record in state.records[course.step.number :]]
    for one in (*later, state.course() if state.step is not None else None):
        if one is None or zone not in one.now.zones:
            break
        stage = state.plan.by_step[one.step.number].get(zone)
        if stage is not None and stage.works(dimension):
            break
        if stage is not None and one.step is not state.step:
            scaled_mm += stage.changes_mm(dimension)
        left = expected_size(one.now, zone, dimension) or left
    return left.value - scaled_mm if left is not None else None


def _read_over(state: JobState) -> Iterator[tuple[int, ReadOver]]:
    """By step, what was read of a quench's heat that was hotter or longer than is asked for."""
    for course in state.courses():
        if not course.step.does(Does.QUENCHES):
            continue
        read = {"temperature": 0.0, "soak": 0.0}
        for one in course.outcomes:
            reading = one.mark.reading
            if one.questioned or reading.dimension not in read or one.limits is None:
                continue
            if reading.size_mm > one.limits.high:
                read[reading.dimension] = max(read[reading.dimension], reading.size_mm)
        if any(read.values()):
            yield course.step.number, ReadOver(read["temperature"], read["soak"] / 60.0)


def _minutes(marks: Sequence[Mark], heats: int) -> list[float | None]:
    timed: list[float | None] = [mark.minutes for mark in marks if isinstance(mark, HeatMark)]
    return [*timed, *[None] * (heats - len(timed))]


def _as_expected(state: JobState, skin: Skin) -> Skin:
    """A skin with what its grinding will take off by the sizes that are expected to come to it."""
    plan, found, off = state.plan, state.forecast(), skin.grinding
    before = found.after.get(off.step - 1) if off is not None and found is not None else None
    if off is not None and off.step == len(state.records) + 1:
        before = state.start  # it is in hand
    # A length that the stone brings home finds what the recipe's own skin leaves on it.
    if off is None or before is None or off.dimension == "length":
        return skin
    step = plan.recipe.steps[off.step - 1]
    expected, target = expected_size(before, skin.zone, off.dimension), step.targets.get(off.dimension)
    if expected is None or target is None:
        return skin
    reached_mm = _left_at(state, skin.zone, off) or target.nominal
    ground_mm = max(expected.value - reached_mm - step.amounts.get("iron_side_mm", 0.0), 0.0)
    return skin._replace(grinding=off._replace(ground_mm=ground_mm))


def _left_at(state: JobState, zone: str, off: Grinding) -> float | None:
    """Where the grinding in hand, or a way back in it, leaves a size that has no more to go."""
    course = state.course()
    if course is None or course.step.number != off.step:
        return None
    last = course.last(zone, off.dimension)
    for mark in reversed(course.marks):
        if isinstance(mark, ReadingMark) and last is not None and mark.entry == last.mark.entry:
            break
        if isinstance(mark, AmendmentMark):
            for row in mark.amendment.regained:
                if (row.zone, row.dimension) == (zone, off.dimension):
                    return row.size_mm
    if last is None or last.surprise is None or not last.counts or last.verdict is Verdict.MORE_TO_GO:
        return None
    return last.surprise.cold.size_mm


def _told(skin: Skin, short: Grinding | None = None) -> SteelSkin:
    """A skin as it is told, by the step ahead that grinds it off or by the one behind that fell short."""
    off = skin.grinding or short
    told = SteelSkin(
        skin.steel, skin.zone, skin.metal, mm(skin.now_mm), mm(skin.end_mm), skin.ground_in, *[None] * 6
    )
    if off is None:
        return told
    return told._replace(
        ground_in=off.step if off is short else None,
        step=off.step,
        at_grinding=mm(off.skin_mm),
        dimension=off.dimension,
        ground=mm(off.ground_mm),
        needed=mm(off.needed_mm),
        enough=off.is_enough,
        faces=off.faces,
    )


def short_skin(skins: Sequence[SteelSkin], here: int | None = None) -> Words:
    """Why a job is tight for the first steel whose skin the stone leaves; `here` is the step in hand."""
    for skin in skins:
        if skin.left is not None:
            return say(
                "The skin of the {} will be up to {} deep once more and no step ahead grinds it off: go "
                "through it with the stone, or it comes out soft.",
                skin.steel,
                skin.left,
            )
        if skin.lacks_mm and skin.deep and skin.is_ground and skin.should:
            told = (
                "The skin of the {} will be up to {} deep{} and only {} is ground off the {}: leave {} more "
            )
            told += "for the stone, {} in all with a tenth of sound steel{}, or it comes out soft."
            if skin.was_ground:
                told = (
                    "The skin of the {} was up to {} deep{} and only {} was ground off the {}: take {} more "
                )
                told += "off, {} in all with a tenth of sound steel{}, or its face stays soft."
            elif skin.step == here and skin.dimension != "length":
                told = "The skin of the {} is up to {} deep{} and only {} is ground off the {}: take {} more "
                told += "off, {} in all with a tenth of sound steel{}, or its face stays soft."
            return say(
                told,
                skin.steel,
                skin.deep,
                skin.on_faces,
                skin.is_ground,
                said(skin.dimension or ""),
                mm(skin.lacks_mm),
                skin.should,
                " on each" if skin.on_faces else "",
            )
    return NOTHING
