"""A size that is read again with no heat between: which of its readings count, and as what."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations, groupby
from math import fsum, hypot, sqrt
from typing import Final, NamedTuple

from coach.ledger.course import Mark, Outcome, ReadingMark, Together, asked_names, believed_name
from coach.ledger.doubting import unformed_mm
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.possible import bound_passed, is_cut_there, takes_off
from coach.ledger.reading import ColdReading, Reading, bear_each_other_out, cold_reading, surprise_of
from coach.ledger.rolled import as_rolled
from coach.ledger.spreading import UNTAUGHT
from coach.ledger.verdict import Judged, Verdict, judge
from coach.ledger.workpiece import Workpiece
from coach.operations import Does
from coach.quantities import Limits
from coach.recipe.model import Step

#: Readings of one size agree where they differ by no more than this many standard uncertainties (judgement).
AGREE_WITHIN: Final = 2.0
#: So many that do not all agree are weighed against each other; of two the later counts (judgement).
_WEIGHED_FROM: Final = 3
#: So many more of what no work can have made than of what may be are believed beside it: as many as make a
#: reading stand that nothing else was read beside (judgement).
_MORE_OF_IMPOSSIBLE: Final = 2


class ReadAgain(NamedTuple):
    """A step's marks with what was read more than once as the one reading that it comes to."""

    marks: tuple[Mark, ...]
    together: Mapping[int, Together]  # by the entry of the last of those that a reading stands for
    outvoted: Mapping[int, int]  # entries that others speak against, each with the first of those
    unsettled: bool = False  # whether they are weighed by what is possible, and that was not known


def read_again(
    plan: Plan,
    start: Workpiece,
    step: Step,
    marks: Sequence[Mark],
    impossible: Mapping[int, bool] | None = None,
) -> ReadAgain:
    """What a step's readings come to where a size was read more than once between two heats.

    Those that agree are one reading, their mean. Of two that do not, the later counts, as it is typed to
    correct the one before or read after a few blows: that is no matter of this. Of three and more so do they
    where each goes on from those before as the step works the size. In any other order none of them tells of
    work: as many as agree count, as their mean, the later of two groups as large, and the others are
    outvoted; where no two agree they scatter, and say no more than their mean with the doubt of that.

    A reading that was insisted on lets all stand as they were typed, where they do not agree. `impossible`
    are entries that cannot be true by what was known before them, each with whether no work of the step can
    have made them: they are no part of a scatter, and those that no work made are outvoted by what may be,
    unless they are two more. None where that is not known yet.
    """
    found = _Found(plan, step, impossible)
    for is_read, some in groupby(marks, key=lambda mark: isinstance(mark, ReadingMark)):
        by_size: dict[tuple[str, str], list[ReadingMark]] = {}
        for mark in some if is_read else ():
            if isinstance(mark, ReadingMark) and _is_of_the_metal(plan, start, step, mark.reading):
                by_size.setdefault(mark.reading[:2], []).append(mark)
        again = {size: each for size, each in by_size.items() if len(each) > 1}
        as_typed = [each for each in again.values() if _all_agree(each) or not _is_stood_by(each)]
        worked = {each[0].reading.zone for each in again.values() if len(found.as_worked(each) or ()) > 1}
        for each in as_typed:
            found.weigh(each, was_worked=each[0].reading.zone in worked)
    left = (found.instead.get(mark.entry, mark) for mark in marks)
    kept = tuple(mark for mark in left if mark.entry not in found.inside)
    return ReadAgain(kept, found.together, found.outvoted, found.unsettled)


class _Found:
    """What is found of one size after the other."""

    def __init__(self, plan: Plan, step: Step, impossible: Mapping[int, bool] | None) -> None:
        self.instead: dict[int, ReadingMark] = {}
        self.inside: set[int] = set()  # entries that are part of a later one's reading
        self.together: dict[int, Together] = {}
        self.outvoted: dict[int, int] = {}
        self.unsettled = False
        self._plan, self._step = plan, step
        self._impossible = impossible

    def weigh(self, readings: Sequence[ReadingMark], *, was_worked: bool) -> None:
        """One size as it was read, one time after the other; `was_worked` tells that its zone was, between.

        What its gauge cannot tell from before that work is not one with it, for it moved.
        """
        if (groups := self.as_worked(readings)) is not None:
            for group in groups if not was_worked or len(groups) > 1 else ():
                self._one_of(group)
            return
        if len(readings) < _WEIGHED_FROM:
            return
        if self._impossible is None:
            self.unsettled = True
            return
        unmade = [one for one in readings if self._impossible.get(one.entry)]
        may_be = [one for one in readings if one not in unmade]
        is_unmade = not may_be or len(unmade) >= len(may_be) + _MORE_OF_IMPOSSIBLE
        alike = _most_alike(readings if is_unmade else may_be)
        if len(alike) > 1 or (len(may_be) == 1 and not is_unmade):
            self._one_of(alike)
        else:
            alike = [one for one in readings if one.entry not in self._impossible]
            if not alike:
                return
            self._one_of(alike, scattered=True)
        others = [one.entry for one in readings if one not in alike]
        self.outvoted |= dict.fromkeys(others, alike[0].entry)

    def as_worked(self, readings: Sequence[ReadingMark]) -> list[list[ReadingMark]] | None:
        """They in groups, each as far as those in it agree; None where some went back, against the work."""
        reading = readings[0].reading
        groups: list[list[ReadingMark]] = []
        ways: set[bool] = set()  # whether it grew
        for at, mark in enumerate(readings):
            for one in readings[:at]:
                if agree(one, mark):
                    continue
                by_mm = _cold(mark) - _cold(one)
                ways.add(by_mm > 0.0)
                if len(ways) > 1 or not self._works(reading, by_mm):
                    return None
            if groups and all(agree(one, mark) for one in groups[-1]):
                groups[-1].append(mark)
            else:
                groups.append([mark])
        return groups

    def _works(self, reading: Reading, by_mm: float) -> bool:
        """Whether the work of the step takes a size that way."""
        stage = self._plan.by_step[self._step.number].get(reading.zone)
        if stage is None:
            return False
        if takes_off(stage, reading.dimension):
            return comes_off(stage, reading.dimension) and by_mm < 0.0
        name = believed_name(self._plan, self._step, reading)
        if name in asked_names(self._plan, self._step):
            return (reading.dimension in stage.grows) == (by_mm > 0.0)
        return stage.drives(reading.dimension, by_mm)

    def _one_of(self, some: Sequence[ReadingMark], *, scattered: bool = False) -> None:
        """Put one reading in the place of some: that of the last of them."""
        if len(some) < 2:
            return
        last, cold = some[-1], _together(some)
        if scattered:
            off_mm = fsum((_cold(one) - cold.size_mm) ** 2 for one in some)
            cold = cold._replace(chance_mm=sqrt(off_mm / (len(some) - 1)))
        by = _surest(some).reading  # whatever was typed last, it is known by that gauge above all
        whole = last.reading._replace(
            size_mm=cold.size_mm, hot_c=None, chance_mm=cold.chance_mm, gauge=by.gauge, then=by.then
        )
        self.instead[last.entry] = last._replace(reading=whole, insisted=_is_stood_by(some))
        self.inside |= {one.entry for one in some[:-1]}
        self.together[last.entry] = Together(tuple(some), cold.size_mm, scattered)


def _is_of_the_metal(plan: Plan, start: Workpiece, step: Step, reading: Reading) -> bool:
    """Whether a reading is of a size that a zone has; a mark is made where it is read last."""
    stage, there = plan.by_step[step.number].get(reading.zone), start.zones.get(reading.zone)
    state = stage.after if stage is not None else there
    return state is not None and state.has_form and reading.dimension in state.shape.dimensions


def comes_off(stage: Stage, dimension: str) -> bool:
    """Whether a step that takes metal off makes a size less by it; a hole and a bevel grow."""
    is_cut = stage.step.does(Does.CUTS_FREE) and dimension == stage.after.free
    grows = "hole" in dimension or (dimension in stage.grows and not is_cut)
    return not grows


def _most_alike(readings: Sequence[ReadingMark]) -> list[ReadingMark]:
    """The most of them that agree, in the order they were typed; of as many those with the later ones."""
    by_size = sorted(readings, key=_cold)
    groups = [list(_from(by_size[at:])) for at in range(len(by_size))]
    best = max(groups, key=lambda group: (len(group), max(one.entry for one in group), -_cold(group[0])))
    return [one for one in readings if one in best]


def _from(by_size: Sequence[ReadingMark]) -> Iterator[ReadingMark]:
    """The least of them and those that agree with it and with each other."""
    found: list[ReadingMark] = []
    for one in by_size:
        if all(agree(one, other) for other in found):
            found.append(one)
            yield one


def _cold(mark: ReadingMark) -> float:
    return cold_reading(mark.reading).size_mm


def agree(one: ReadingMark, other: ReadingMark) -> bool:
    """Whether two readings of one size differ by no more than their gauges may."""
    a, b = cold_reading(one.reading), cold_reading(other.reading)
    return abs(a.size_mm - b.size_mm) <= AGREE_WITHIN * hypot(a.chance_mm, b.chance_mm)


def _all_agree(readings: Sequence[ReadingMark]) -> bool:
    return all(agree(one, other) for one, other in combinations(readings, 2))


def _is_stood_by(readings: Iterable[ReadingMark]) -> bool:
    return any(one.insisted for one in readings)


def _together(some: Sequence[ReadingMark]) -> ColdReading:
    """Their mean, each by the inverse of its variance, which is what several readings are believed as."""
    colds = [cold_reading(one.reading) for one in some]
    weights = [1.0 / one.chance_mm**2 for one in colds]
    mean_mm = fsum(w * one.size_mm for w, one in zip(weights, colds, strict=True)) / fsum(weights)
    return ColdReading(mean_mm, 1.0 / sqrt(fsum(weights)), cold_reading(_surest(some).reading).bias_mm)


def _surest(some: Sequence[ReadingMark]) -> ReadingMark:
    """The one that is known the best, as by a calliper beside a rule."""
    return min(some, key=lambda one: (cold_reading(one.reading).doubt_mm, one.reading.gauge))


def impossible_by(
    plan: Plan,
    start: Workpiece,
    step: Step,
    mark: ReadingMark,
    limits: Limits | None,
    now: Workpiece,
    read_mm: Mapping[str, float],
) -> dict[int, bool]:
    """The entry of a reading that is questioned by what was known before its round; empty of any other.

    With whether it passes what the step can make at all. `now` and `read_mm` are as they were by then.
    """
    reading = mark.reading
    now = as_rolled(plan, now, step, reading)
    surprise = surprise_of(now, reading, unformed_mm(plan, now, step, reading, read_mm))
    stage, cold = plan.by_step[step.number].get(reading.zone), surprise.cold
    if is_cut_there(start, stage, reading, surprise, limits):
        return {}
    is_unmade = bound_passed(start, now, stage, reading, cold, read_mm) is not None
    return {mark.entry: is_unmade} if is_unmade or surprise.questioned else {}


def of_several(judged: Judged, whole: Together | None, limits: Limits) -> Judged:
    """A verdict by several readings of one size: none of what scatters, and a gauge is no finer by them."""
    if whole is None:
        return judged
    if whole.scattered:
        return judged._replace(verdict=Verdict.UNSURE, too_coarse=False)
    surest = cold_reading(_surest(whole.of).reading)
    coarse = judge(surest.size_mm, surest.doubt_mm, limits, grows=None).too_coarse
    return judged._replace(too_coarse=coarse and judged.verdict is not Verdict.GOOD)


def bears_itself_out(whole: Together | None, *, odd: bool) -> bool:
    """Whether a reading is of several that agree, as a second one like the first makes that stand.

    Where neither can be true (`odd`) they must be as near as a slip that is made twice.
    """
    if whole is None or whole.scattered:
        return whole is not None
    colds = [cold_reading(one.reading) for one in whole.of]
    return any(bear_each_other_out(one, colds[-1], odd=odd) for one in colds[:-1])


def each_as_typed(outcomes: Sequence[Outcome], again: ReadAgain, as_typed: Sequence[Mark]) -> list[Outcome]:
    """The readings of a step in the order they were typed, each that is part of another as that counts.

    One that others outvote comes before them, so that the last of a size is what counts of it.
    """
    places = {mark.entry: float(place) for place, mark in enumerate(as_typed)}
    places |= {entry: places[by] - 0.5 for entry, by in again.outvoted.items() if places[entry] > places[by]}
    found: list[Outcome] = []
    for outcome in outcomes:
        entry = outcome.mark.entry
        whole = again.together.get(entry)
        if whole is None:
            found.append(outcome._replace(outvoted=entry in again.outvoted))
            continue
        own = outcome._replace(together=whole)
        found += [own._replace(mark=one, taught=UNTAUGHT) for one in whole.of[:-1]]
        found.append(own._replace(mark=whole.of[-1]))
    return sorted(found, key=lambda one: places[one.mark.entry])
