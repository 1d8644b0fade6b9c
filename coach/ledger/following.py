"""One step as it goes: heats and readings taken in the order they came, and what they say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from itertools import chain

from coach.ledger.across_cheeks import with_cheeks
from coach.ledger.amended import amended_workpiece
from coach.ledger.beside_branches import beside_branches
from coach.ledger.beside_section import beside_found
from coach.ledger.between import (
    brought_home,
    driven_in,
    home_at,
    is_worked,
    last_heat_of,
    left_behind,
    moved_mm,
    read_under_way,
    with_age,
)
from coach.ledger.course import (
    AmendmentMark,
    Course,
    HeatMark,
    Mark,
    Outcome,
    ReadingMark,
    asked_names,
    believed_name,
)
from coach.ledger.cut_on_row import with_the_rest
from coach.ledger.cut_unread import cut_unread
from coach.ledger.doubting import driven_with, on_its_way, unformed_mm, widened, worn_further
from coach.ledger.fire_after_temper import NOT_UNDONE, Undone, before_another_quench, beside_fires
from coach.ledger.heats import SoFar, hammered, scaled, scaling_forms, unplanned, worked_on
from coach.ledger.judging import extra, in_one_light, no_more_than_there_is
from coach.ledger.landing import looked_back
from coach.ledger.lost import as_known_then
from coach.ledger.made_anew import marked_there, marks_made_anew, taken_anew
from coach.ledger.odd_section import readings_of
from coach.ledger.plan import Plan
from coach.ledger.possible import bound_passed, is_cut_there, is_far_past, takes_off
from coach.ledger.read_again import (
    ReadAgain,
    bears_itself_out,
    each_as_typed,
    impossible_by,
    of_several,
)
from coach.ledger.reading import (
    ColdReading,
    Reading,
    Surprise,
    bear_each_other_out,
    cold_reading,
    surprise_of,
    taken_in,
    with_measured,
    with_work_since,
)
from coach.ledger.rolled import as_rolled
from coach.ledger.rounds import in_rounds
from coach.ledger.settling import read_to_go_share
from coach.ledger.spreading import Learner
from coach.ledger.stepping import step_on
from coach.ledger.tines import of_one_bar
from coach.ledger.verdict import Verdict
from coach.ledger.wanting import wanted
from coach.ledger.weighing import expected_mass, surprise_of_mass, weighed
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece, size_name
from coach.operations import Does, operation
from coach.operations.measures import MARK, MASS, SLUG
from coach.recipe.model import Step
from coach.recipe.one_bar import across_others

_NONE: Mapping[int, int] = {}
#: How far a few blows too many may take a size past where it was, as a share (common practice, no source).
_HAMMERED_SHARE = 0.05


def follow(
    plan: Plan,
    start: Workpiece,
    step: Step,
    marks: Sequence[Mark],
    *,
    finished: bool,
    unmarked: float = 0.0,
    landed: bool = True,
    doubted: frozenset[int] = frozenset(),
    undone: Undone = NOT_UNDONE,
    of_row: bool = True,  # with what a piece is cut short by in front of the next one of its row
) -> Course:
    """Replay a step's heats and readings.

    While the step is going on, a size it works to may be anywhere on its way; once it is finished, one that
    was never read counts as worked to its target. The order of reading between two heats makes no difference,
    but for sizes that moved before they were read again. Heats taken `unmarked` lie before the readings.
    Unless a finished step has `landed` its sizes where they were read, they say nothing of the hand. Others
    speak against `doubted` entries; what is `undone` lies beside a fire that drew it. Raises LedgerError.
    """
    anew_from = partial(follow, plan, step=step, marks=marks, finished=finished, unmarked=unmarked)
    anew_from = partial(anew_from, landed=landed, doubted=doubted, undone=undone, of_row=False)
    across = across_others(plan.recipe, step)
    start = start if start.across == across else start._replace(across=across)
    alone = partial(_Going, plan, start, step, finished=finished, landed=landed, undone=undone)
    again = readings_of(plan, start, step, marks, partial(alone, unmarked=unmarked), doubted)
    doubted |= again.outvoted.keys()
    going = partial(alone, again)
    found = going(unmarked=unmarked, doubted=doubted)
    ignored = frozenset(one.mark.entry for one in found.outcomes if one.questioned)
    found = going(unmarked=unmarked, doubted=doubted, ignored=ignored) if ignored else found
    if not finished and (share := found.heated_share()):
        unmarked = share * step.heats
        found = going(unmarked=unmarked, doubted=doubted, ignored=ignored)
    kept: set[tuple[int, int]] = set()  # pairs whose later reading is questioned without the earlier too
    while pair := next((one for one in found.outweighed if one not in kept), None):
        aside = doubted | {pair[0]}
        tried = going(unmarked=unmarked, doubted=aside, ignored=ignored | aside)
        if any(one.mark.entry == pair[1] and one.questioned for one in tried.outcomes):
            kept.add(pair)
        else:
            found, doubted = tried, aside
    off = taken_anew(plan, step, again.marks, found.outcomes)
    if (anew := {**marks_made_anew(marks, found.outcomes), **off.anew}) or off.doubted:
        doubted, ignored = doubted | off.doubted, ignored | doubted | off.doubted
        found = going(unmarked=unmarked, doubted=doubted, ignored=ignored, anew=anew)
    course = found.course(marks)
    return beside_branches(with_the_rest(plan, course, follow, anew_from) if of_row else course)


class _Going:
    """A step while its marks are taken in, one after the other."""

    def __init__(
        self,
        plan: Plan,
        start: Workpiece,
        step: Step,
        again: ReadAgain,
        *,
        finished: bool,
        unmarked: float,
        landed: bool = True,
        doubted: frozenset[int] = frozenset(),
        ignored: frozenset[int] = frozenset(),
        anew: Mapping[int, int] = _NONE,
        undone: Undone = NOT_UNDONE,
    ) -> None:
        ignored |= again.outvoted.keys()
        rounds = in_rounds(plan, start, step, again.marks, ignored)
        marks = list(chain.from_iterable(rounds))
        last_heat = last_heat_of(marks)
        asked = asked_names(plan, step)
        under_way = read_under_way(plan, step, rounds, last_heat, ignored) if finished else asked
        self.outcomes: list[Outcome] = []
        self.outweighed: list[tuple[int, int]] = []
        self._left_behind: set[int] = set()  # entries of sizes that were worked on without a heat marked
        self.impossible: dict[int, bool] = {}  # what cannot be true by what was known before its round
        self._again = again
        self._plan, self._start, self._step = plan, start, step
        self._marks = marks
        self._at = 0  # the place of the mark in hand
        self._outset: tuple[Workpiece, dict[str, float]] | None = None  # what was known before this round
        self._last_heat = last_heat
        self._home = brought_home(plan, step, rounds, last_heat, ignored) if finished else {}
        self._doubted = doubted  # entries that a later reading of the same size speaks against
        self._ignored, self._undone = ignored, undone  # the first in question, so that they show no work
        self._anew = anew  # entries of marks that are there no more, each with that of the mark that is
        self._stages = plan.by_step[step.number]
        self._now = step_on(plan, start, step, heats=0.0, under_way=under_way)
        self._scaling = scaling_forms(plan, step, start, self._now)
        self._heats = unmarked
        self._read_in: dict[str, ReadingMark] = {}  # the believed reading of each size since the last heat
        self._found: dict[str, Verdict] = {}  # of each size since the last heat
        self._to_go: dict[str, float] = {}  # how surely each size that the heats work has more to go, as read
        self._believed: dict[str, float] = {}  # the last believed reading of each size, cold
        self._since: dict[str, float] = {}  # the same, since the last heat
        self._fresh: set[str] = set()  # the sizes read in this round: nothing was worked since
        self._driven: set[str] = set()  # the zones that were worked before this round, as it shows
        at_end = step_on(plan, start, step, heats=0.0).belief if self._home else None
        self._lost: set[str] = set()  # zones that lost metal: the next heat works what is left of them
        self._so_far = SoFar(asked, self._believed, self._lost, self._now.belief, at_end)
        self._questioned: dict[str, list[ColdReading]] = {}
        self._learner = Learner(start, step)
        self._now = scaled(plan, self._now, step, self._scaling, unmarked)
        for one in rounds:
            self._fresh.clear()
            self._work_before(one)
            for mark in one:
                self._take(mark)
                self._at += 1
        self._now = with_cheeks(start, self._now, self._stages, self.outcomes, marks)
        if finished and landed:
            read = dict.fromkeys(asked & self._read_in.keys(), 1.0)
            self._now = looked_back(self._now, start, self._stages, read)

    def _take(self, mark: Mark) -> None:
        if not isinstance(mark, ReadingMark):
            self._outset = None
        if isinstance(mark, HeatMark):
            self._heat(mark)
        elif isinstance(mark, AmendmentMark):
            self._amend(mark)
        else:
            self._read(mark)

    def course(self, as_typed: Sequence[Mark]) -> Course:
        """The step as far as it went, its readings in the order they were typed."""
        lit = beside_fires(self._undone, self.outcomes)
        lit = in_one_light(self._plan, self._step, lit, self._marks, as_typed)
        lit = [with_age(self._step, self._marks, self._last_heat, self._left_behind, one) for one in lit]
        lit = of_one_bar(self._start, self._now, self._step, self._stages, lit)
        outcomes, marks = tuple(each_as_typed(lit, self._again, as_typed)), tuple(as_typed)
        so_far = self._step, self._start, self._now, self._heats
        return before_another_quench(Course(*so_far, outcomes, marks, self._scaling, self._doubted))

    def _heat(self, mark: HeatMark) -> None:
        """A heat takes its scale and moves what was measured; the last of a finished step brings it home."""
        self._now = with_cheeks(self._start, self._now, self._stages, self.outcomes, self._marks[: self._at])
        more = unplanned(self._step, self._heats, self._believed)
        self._heats += not mark.sent_back
        self._learner.heat()
        for known in (self._read_in, self._found, self._since, self._questioned):
            known.clear()
        self._now = scaled(self._plan, self._now, self._step, self._scaling, 1.0, mark.minutes, more)
        home = home_at(self._home, self._at)
        self._now = hammered(self._plan, self._now, self._step, self._so_far, home=home)
        self._now = with_work_since(self._now, [one for one in self._now.zones if reshapes(self._step, one)])

    def _amend(self, mark: AmendmentMark) -> None:
        """A way back was taken; what was read of a size that it changes is to be measured again."""
        way = as_known_then(self._now, mark.amendment) if mark.is_loss else mark.amendment
        self._now = amended_workpiece(self._now, way, self._plan)
        sizes = way.changed_sizes(self._now)
        self._lost.update(zone for zone, _ in sizes if mark.is_loss)
        changed = {size_name(*size) for size in sizes}
        for name in changed:
            self._believed.pop(name, None)
            self._since.pop(name, None)
        self.outcomes = [one for one in self.outcomes if self._name(one.mark.reading) not in changed]

    def _read(self, mark: ReadingMark) -> None:
        """A reading is held against what was expected, judged, and believed unless it is questioned."""
        before = self._now
        self._outset = self._outset or (before, dict(self._believed))
        outcome = self._outcome(mark)
        if not outcome.questioned:
            self._now, taught = self._learner.read(before, self._now, mark.reading, outcome.judged)
            outcome = outcome._replace(taught=taught)
        self._now = before if mark.entry in self._anew else self._now
        self.outcomes.append(outcome)

    def _outcome(self, mark: ReadingMark) -> Outcome:
        reading = mark.reading
        if reading.dimension in (MASS, SLUG):
            return self._weighed(mark)
        state = self._now.zones[reading.zone]
        if not state.has_form or reading.dimension not in (*state.shape.dimensions, MARK):
            return extra(self._plan, self._step, mark)
        return self._measured(mark)

    def _measured(self, mark: ReadingMark) -> Outcome:
        """A size of the metal account."""
        reading = mark.reading
        cold, before = cold_reading(reading), self._now
        self._now = as_rolled(self._plan, before, self._step, reading)
        limits, grows = wanted(self._plan, self._now, self._step, reading.zone, reading.dimension)
        moved, size = self._marks[: self._at], reading[:2]
        limits = marked_there(limits, self._plan, self._now, self._step, size, moved)
        worked = self._work_between(reading, cold)
        unformed = unformed_mm(self._plan, self._now, self._step, reading, self._believed)
        surprise = surprise_of(self._now, reading, unformed)
        stage, name = self._stages.get(reading.zone), self._name(reading)
        far_past = name in self._so_far.asked and stage is not None and is_far_past(stage, reading, cold)
        bound = bound_passed(self._start, self._now, stage, reading, cold, self._believed)
        odd = far_past or bound is not None
        # A mark is made where it is read, anew if it was out of its place; a cut goes where the smith cuts.
        new = limits is not None and reading.dimension == MARK and limits.contains(cold.size_mm)
        new = new or mark.entry in self._anew.values()
        cut = cut_unread(self._plan, before, self._step, reading)
        new = new or is_cut_there(self._start, stage, reading, surprise, limits)
        was = self._outset if self._again.unsettled else None
        if was is not None:
            self.impossible |= impossible_by(self._plan, self._start, self._step, mark, limits, *was)
        whole = self._again.together.get(mark.entry)
        new = new or bears_itself_out(whole, odd=odd)
        questioned = mark.entry in self._doubted or (not new and self._is_questioned(mark, surprise, odd=odd))
        earlier = self._read_in.get(own := size_name(reading.zone, reading.dimension))
        speaks_against = surprise.questioned and not worked if mark.insisted else questioned
        if earlier is not None and speaks_against and not odd and (mark.insisted or not earlier.insisted):
            self.outweighed.append((earlier.entry, mark.entry))
        judged = None
        dressed = stage is not None and reading.dimension in stage.dressed
        if limits is not None:
            beside = beside_found(self._found, self._so_far.asked, self._now.zones[reading.zone], reading)
            about = self._plan, self._step, reading, cold, limits
            judged, limits = beside.judged(*about, grows=grows, dressed=dressed)
            cuts = operation(self._step.operation).FIXES and is_worked(self._step, reading)
            judged, limits = no_more_than_there_is(
                judged, limits, surprise, bound, questioned=questioned, cuts=cuts
            )
            judged = of_several(judged, whole, limits)
        if not questioned:
            if worked:
                self._left_behind |= left_behind(self._plan, self._step, reading, self._fresh, self.outcomes)
            if mark.insisted or (surprise.questioned and not mark.is_believed):
                self._now = widened(self._now, reading, surprise, bound)
            fixes = cut or stage
            if fixes is not None and takes_off(fixes, reading.dimension):
                self._now = worn_further(self._now, reading, surprise, is_cut=fixes.step.does(Does.CUTS_FREE))
            self._believed[name] = self._since[name] = cold.size_mm
            self._fresh.add(name)
            self._read_in[own] = mark
            if judged is not None:
                self._found[own] = judged.verdict
                if is_worked(self._step, reading):
                    of_it = self._now, stage, reading, cold, beside.of_work(*about, judged), self._since
                    self._to_go[own] = read_to_go_share(*of_it, is_asked=name in self._so_far.asked)
            there = driven_with(stage, reading, surprise, self._so_far.asked)
            unread = [n for n in there if n not in self._since and self._home.get(n, self._at + 1) > self._at]
            self._now = on_its_way(self._now, unread, surprise)
            self._now = with_measured(taken_in(self._now, reading, unformed), reading)
        else:
            self._now = before  # it says nothing of the work either, until it counts
        wide = dressed and judged is not None and judged.verdict is Verdict.MORE_TO_GO and not judged.below
        return Outcome(mark, surprise, judged, limits, questioned, run_wide=wide, bound=bound)

    def heated_share(self) -> float:
        """How surely sizes are where the step's heats bring them, though none of those was marked."""
        unmarked = self._step.heats and self._to_go and not self._heats
        return 1.0 - max(self._to_go.values()) if unmarked else 0.0

    def _weighed(self, mark: ReadingMark) -> Outcome:
        """A weighing says how much metal there is, not whether a size is good."""
        reading = mark.reading
        expected = expected_mass(self._plan, self._now, self._step, reading.zone, reading.dimension)
        if expected is None:
            return Outcome(mark)
        surprise = surprise_of_mass(expected, reading.size_mm, self._now.belief)
        questioned = self._is_questioned(mark, surprise)
        if not questioned:
            self._now = weighed(self._now, surprise)
        return Outcome(mark, surprise, questioned=questioned)

    def _is_questioned(self, mark: ReadingMark, surprise: Surprise, *, odd: bool = False) -> bool:
        """Whether a reading is to be taken again before it is believed; a second one like it is."""
        if mark.stands or not (surprise.questioned or odd):
            return False
        before, cold = self._questioned.setdefault(self._name(mark.reading), []), surprise.cold
        if any(bear_each_other_out(other, cold, odd=odd) for other in before):
            return False
        before.append(cold)
        return True

    def _work_before(self, marks: Sequence[Mark]) -> None:
        """The work without a heat marked that a round of readings shows lies before all of them.

        Else a section as it is now would be held against the length as it was then, and what nobody has read
        would be made out to be far too wide.
        """
        self._driven.clear()
        for zone in driven_in(marks, self._doubted | self._ignored, self._plan, self._step, self._since):
            self._drive(zone, self._at - 1)
            self._driven.add(zone)

    def _drive(self, zone: str, at: int) -> None:
        """The free dimension moved: so did the section it follows from, but for what was read beside it."""
        section = {one for one in self._so_far.asked if one.rsplit(".", 1)[0] == zone}
        so_far = self._so_far._replace(asked=section - self._fresh)
        self._now = hammered(self._plan, self._now, self._step, so_far, home=home_at(self._home, at))

    def _work_between(self, reading: Reading, cold: ColdReading) -> bool:
        """Whether a size that is no more where it was read has been worked on without a heat marked.

        A heat that was marked has moved it already, and what was read since then holds.
        """
        name, zone = self._name(reading), reading.zone
        by_mm = moved_mm(self._since.get(name, cold.size_mm), cold.size_mm, cold.chance_mm)
        if not by_mm:
            return False
        stage = self._stages.get(zone)
        grows = stage is not None and reading.dimension in stage.grows
        if name in self._so_far.asked and grows == (by_mm > 0.0):
            least_mm = _HAMMERED_SHARE * cold.size_mm
            self._now = worked_on(self._plan, self._now, self._step, [name], least_mm=least_mm)
            return True
        if stage is not None and stage.drives(reading.dimension, by_mm):
            if zone not in self._driven:  # while it is in question
                self._drive(zone, self._at)
            return True
        return False

    def _name(self, reading: Reading) -> str:
        return believed_name(self._plan, self._step, reading)
