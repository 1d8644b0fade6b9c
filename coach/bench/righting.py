"""The list of things to put right: what was noted for it, and the tests that did not pass."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from coach.bench.after_out import after_out
from coach.bench.bent import as_steps_are_now
from coach.bench.corner_gone import corners_gone, worry_of_corner
from coach.bench.drawn import drawn
from coach.bench.entering import EntryFault
from coach.bench.happened import moment_of
from coach.bench.heat_treated import HARDNESS, OF_TREATMENT, treatment_of, wrong_heats
from coach.bench.heats_left_out import heats_left_out
from coach.bench.job_state import JobState
from coach.bench.left_wrong import cheeks_together, left_wrong_in
from coach.bench.undone import to_look_at
from coach.bench.wrong_bath import CRACK_TEST
from coach.forms import said
from coach.ledger.beside_magnet import past_the_magnet
from coach.ledger.course import Outcome
from coach.ledger.own_curves import FILE_TEST
from coach.ledger.verdict import Verdict
from coach.log.kinds.metal_lost import MetalLost
from coach.log.kinds.put_right import PutRight
from coach.log.kinds.to_put_right import ToPutRight
from coach.operations import Does, operation
from coach.operations.measures import ALIKE, MARK
from coach.operations.shop_test import Result
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import NOTHING, Figure, Kind, Words, mm, run_on, say
from coach.quantities.errors import odd_in
from coach.recipe.model import Recipe, Step

if TYPE_CHECKING:
    from coach.ledger.remedies import Failed

#: Of what was read too hot: it is looked at, and what burnt is cut off (common practice, no source).
_BURNT = "may be burnt"
#: What is written of a zone that burnt, in any words (our choice).
_BURN = re.compile(r"\bburn(t|ed)\b", re.IGNORECASE)
#: No iron and no steel burns below this, in °C (computed, of the most carbon that steel has).
_NONE_BURNS_C = 1000.0
_LOST_BURNT = "burnt"


class Right(NamedTuple):
    """Something still to be put right."""

    entry: int  # the number of its entry, or of the test that did not pass
    text: str  # what is not right
    zone: str  # of which zone; empty where it belongs to none
    step: int  # the step then in hand
    at: str  # when
    failed: bool  # whether it is a test that failed; false for a doubt and for what was noted

    @property
    def words(self) -> Words:
        """What it is, with its zone: "bit: not closed at the heel (step 23)"."""
        zone = f"{self.zone}: " if self.zone else ""
        return say("{}{}{}", zone, self.text, say(" (step {})", self.step) if self.step else "")


def thing_to_put_right(recipe: Recipe, step: Step | None, text: str, zone: str | None) -> ToPutRight:
    """The entry of a thing to put right.

    Args:
        recipe: the job's recipe.
        step: the step in hand.
        text: what is to be put right; "bit: not closed at the heel" says the zone too.
        zone: the zone, when it is told apart; None takes that of the text or of the step.

    Raises:
        EntryFault: nothing was said, or of a zone that there is not.
        OutOfLimits: too much was said.
    """
    kept = " ".join(text.split())
    zones = {name.casefold(): name for name in recipe.drawing}
    if zone is None:
        before, colon, after = kept.partition(":")
        if colon and before.strip().casefold() in zones and after.strip():
            zone, kept = zones[before.strip().casefold()], after.strip()
        elif step is not None and len(step.zones) == 1:
            zone = step.zones[0]
    elif zone.strip().casefold() not in zones:
        raise EntryFault(
            f"There is no zone called {zone[:30]!r}{odd_in(zone)}; the zones are {', '.join(recipe.drawing)}."
        )
    else:
        zone = zones[zone.strip().casefold()]
    if not kept:
        raise EntryFault("Nothing was said: type what is to be put right.")
    return ToPutRight(text=kept, zone=zone or "", step=step.number if step is not None else 0)


def rights(state: JobState) -> tuple[Right, ...]:
    """Everything still to be put right, a crack before all else, the rest in the order it came up."""
    settled = {entry.body.entry for entry in state.counted.values() if isinstance(entry.body, PutRight)}
    found = [
        Right(entry.number, as_steps_are_now(state, note), note.zone, note.step, "", failed=False)
        for entry in state.counted.values()
        if isinstance(note := entry.body, ToPutRight)
    ]
    for outcome, step, failed in (*_not_passed(state), *left_wrong_in(state)):
        reading, number = outcome.mark.reading, outcome.mark.entry
        told = SHOP_TESTS.get(reading.dimension)
        text = f"{said(reading.dimension)} {_what_is_wrong(outcome)}"
        waits = told is not None and told.not_yet and step.number > len(state.records)
        found.append(Right(number, text, reading.zone, step.number, "", failed and not waits))
    burnt = {number: (zone, step) for number, zone, step in _burnt(state)}
    found = [one._replace(text=f"{one.text}, {_BURNT}") if one.entry in burnt else one for one in found]
    found += (
        Right(number, _BURNT, zone, step.number, "", failed=False)
        for number, (zone, step) in burnt.items()
        if all(one.entry != number for one in found)
    )
    found += (
        Right(one.entry, one.text, one.zone, one.step.number, "", failed=False) for one in to_look_at(state)
    )
    found += (Right(*one, failed=False) for one in (*corners_gone(state), *heats_left_out(state)))
    then = {entry.number: moment_of(entry) for entry in state.counted.values()}
    open_still = (one._replace(at=then[one.entry]) for one in found if one.entry not in settled)
    beside = cheeks_together(state)
    return tuple(sorted(open_still, key=lambda one: (not is_crack(one), beside.get(one.entry, one.entry))))


def is_crack(right: Right) -> bool:
    """Whether it is a crack that was found: a crack test that failed."""
    return right.failed and right.text.startswith(said(CRACK_TEST))


def _burnt(state: JobState) -> Iterator[tuple[int, str, Step]]:
    """The first reading of each zone that tells of a heat its metal must be feared to burn at.

    But what burnt and was cut off since, as a loss tells, is no more.
    """
    from coach.fire.limits import burns_above
    from coach.ledger.hot_work import grades_in

    told: set[str] = set()
    cut_off = {
        entry.body.zone: entry.number
        for entry in state.counted.values()
        if isinstance(entry.body, MetalLost) and entry.body.cause == _LOST_BURNT
    }
    for course in state.courses():
        for outcome in course.outcomes:
            reading = outcome.mark.reading
            if outcome.mark.entry < cut_off.get(reading.zone, 0):
                continue  # what burnt of it is gone
            heat_c = reading.size_mm if reading.dimension == "temperature" else reading.hot_c
            if outcome.questioned or heat_c is None or heat_c < _NONE_BURNS_C or reading.zone in told:
                continue
            of_zone = course.step._replace(zones=(reading.zone,), heated=(), lays=None)
            if any(burns_above(metal, heat_c) for metal in grades_in(state.plan, of_zone)):
                told.add(reading.zone)
                yield outcome.mark.entry, reading.zone, course.step


def failed_tests(state: JobState, listed: Sequence[Right]) -> tuple[Failed, ...]:
    """The tests on the list that failed, as the remedies look at them."""
    from coach.ledger.remedies import Failed

    open_still = {one.entry for one in listed if one.failed}
    burnt = {zone for number, zone, _ in _burnt(state) if any(one.entry == number for one in listed)}
    hot = (one for one in drawn(state) if any(right.entry == one.entry for right in listed))
    found = (Failed(one.zone, one.asks, one.treated.number, True, one.entry, in_fire=True) for one in hot)
    return tuple(found) + tuple(
        Failed(
            outcome.mark.reading.zone,
            outcome.mark.reading.dimension,
            step.number,
            _is_low(outcome),
            outcome.mark.entry,
            treatment_of(step) if outcome.mark.reading.dimension in OF_TREATMENT else None,
            _is_tack(step),
            outcome.mark.reading.dimension in OF_TREATMENT and outcome.mark.reading.zone in burnt,
            doubted=outcome.verdict is Verdict.UNSURE,
        )
        for outcome, step, _ in _not_passed(state)
        if outcome.mark.entry in open_still
    )


def burnt_zones(state: JobState, listed: Sequence[Right]) -> tuple[str, ...]:
    """The zones on the list that may be burnt, by a heat that was read or by what was noted of them."""
    open_still = {one.entry for one in listed}
    read = (zone for number, zone, _ in _burnt(state) if number in open_still)
    noted = (one.zone for one in listed if one.zone and _BURN.search(one.text))
    return tuple(dict.fromkeys((*read, *noted)))


def left_wrong(state: JobState, listed: Sequence[Right]) -> tuple[tuple[str, str, Words], ...]:
    """What is out on the list, apart from the metal and the treatments, with what is known to mend it."""
    open_still = {one.entry for one in listed}
    wrong = [(one, step) for one, step, _ in left_wrong_in(state) if one.mark.entry in open_still]
    under = {one.mark.reading[:2] for one, _ in wrong if _is_low(one)}
    found = (
        (*outcome.mark.reading[:2], _what_mends(state, step, outcome))
        for outcome, step in wrong  # of what is to be alike, that which is too small stands for both
        if (outcome.mark.reading.zone, ALIKE.get(outcome.mark.reading.dimension)) not in under
    )
    return tuple((zone, dimension, words) for zone, dimension, words in found if words)


def _what_mends(state: JobState, step: Step, outcome: Outcome) -> Words:
    """What is known to mend a size that is out."""
    mends = after_out(state.plan, step, outcome, state.step) or _gone_on(state, step, outcome)
    return mends or _left_by(state, step, outcome)


def _left_by(state: JobState, step: Step, outcome: Outcome) -> Words:
    """What is done about what a finished step left short of its aim, such as a bow; none once it is hard."""
    reading, limits = outcome.mark.reading, outcome.limits
    told = operation(step.operation).AFTER_OUT.get(reading.dimension, NOTHING)
    behind = [record.step for record in state.records]
    hard = any(one.does(Does.QUENCHES) and reading.zone in (*one.zones, *one.heated) for one in behind)
    if not told or limits is None or hard or outcome.verdict is not Verdict.MORE_TO_GO:
        return NOTHING
    return say(
        "It is {:hair} over the {} allowed: {}", mm(reading.size_mm - limits.high), mm(limits.high), told
    )


def _gone_on(state: JobState, step: Step, outcome: Outcome) -> Words:
    """What the step in hand does about a size of its own that is out; nothing where it is no work of it."""
    reading, limits = outcome.mark.reading, outcome.limits
    kind = operation(step.operation).kind_of(reading.dimension)
    if step is not state.step or limits is None or reading.dimension not in step.targets:
        return NOTHING
    cut = step.does(Does.GROOVES) and reading.size_mm > limits.high  # and does not come back
    if cut or kind not in (Kind.LENGTH, Kind.ANGLE) or outcome.verdict is not Verdict.OUT:
        return NOTHING
    does = "another heat in it brings it there" if step.heats else "go on with it"
    told = f"The step is in hand still, and wants {{}}: {does}. Read it again then."
    return say(told, Figure(limits.nominal, kind))


def wrong_marks(state: JobState) -> tuple[Outcome, ...]:
    """The marks on the bar that were read out of their places, and not made anew since."""
    found = (outcome for outcome, _, _ in left_wrong_in(state) if outcome.mark.reading.dimension == MARK)
    return tuple(found)


def not_mended(state: JobState, listed: Sequence[Right]) -> Right | None:
    """The first failed test on the list that no step put in for it is going to mend.

    A crack comes before the others; a heat or a soak that was wrong after them: the test tells what became
    of the steel.
    """
    if not any(one.failed for one in listed):
        return None
    steps, done = state.plan.recipe.steps, len(state.records)
    failed = failed_tests(state, listed)
    met = {one.entry for one in failed if one.is_met_by(steps, done)}
    by_fire = {one.entry for one in failed if one.treatment is not None}
    open_still = [one for one in listed if one.failed and one.entry not in met]
    return min(open_still, key=lambda one: (not is_crack(one), one.entry in by_fire), default=None)


def told_first(state: JobState, listed: Sequence[Right]) -> Words:
    """What is told before all that is wrong with the metal: that it may be burnt, or a test that failed."""
    first = _may_be_burnt(listed) or not_mended(state, listed)
    return first.words if first is not None else NOTHING


def _may_be_burnt(listed: Sequence[Right]) -> Right | None:
    return next((one for one in listed if one.text.endswith(_BURNT)), None)


def worry(state: JobState, listed: Sequence[Right]) -> Words:
    """What keeps a job from being on plan: a failure that nothing mends, a bend left wrong, a grave doubt.

    A doubt is grave where a failure of the same test could mean that the piece is lost.
    """
    grave = {
        outcome.mark.entry
        for outcome, _, failed in _not_passed(state)
        if not failed and (test := SHOP_TESTS.get(outcome.mark.reading.dimension)) and test.spoils
    }
    left_wrong = [(outcome, step) for outcome, step, _ in left_wrong_in(state)]
    now = state.step
    wrong = {outcome.mark.entry: after_out(state.plan, step, outcome, now) for outcome, step in left_wrong}
    treated = {one.mark.entry: (one, step) for one, step, _ in _not_passed(state) if _is_told(one)}
    if (burnt := _may_be_burnt(listed)) is not None:
        return run_on(
            (burnt.words, "Look for what is pitted or crumbles: it is cut off, no heat mends it."), ". "
        )
    failed = not_mended(state, listed) or next((one for one in listed if one.entry in wrong), None)
    if failed is not None:
        outcome_in = treated.get(failed.entry)
        by_heat = after_out(state.plan, outcome_in[1], outcome_in[0]) if outcome_in is not None else NOTHING
        return run_on((failed.words, wrong.get(failed.entry) or by_heat or _what_to_do(state, failed)), ". ")
    if corner := worry_of_corner(state, {one.entry: one.words for one in listed}):
        return corner
    doubted = next((one for one in listed if one.entry in grave), None)
    if doubted is None:
        unseen = {(one.entry, one.text) for one in to_look_at(state) if one.grave}
        done = next((one for one in listed if (one.entry, one.text) in unseen), None)
        return done.words if done is not None else NOTHING
    return run_on((doubted.words, "Look again before going on: pass or fail decides."), ". ")


#: What a file that bit says of a quench that is done (common practice, no source).
_BITTEN = (
    "Grind a spot clean and try it again; where the file bites there too it is hardened again, as the way "
    "back puts it in. Of metal there is enough."
)


def _what_to_do(state: JobState, failed: Right) -> Words | str:
    """Where a thing is put right: in its own step, as long as that is the last one finished."""
    if state.step is None:
        return "It is still to be put right."
    if failed.text == f"{said(FILE_TEST)} failed" and 0 < failed.step <= len(state.records):
        return _BITTEN
    if failed.step and failed.step == len(state.records):
        return say("Go back to step {} and put it right there; of metal there is enough.", failed.step)
    return "Put it right before going on; of metal there is enough."


def _not_passed(state: JobState) -> Iterable[tuple[Outcome, Step, bool]]:
    """Tests, hardnesses and heats of hardening that are not good, each with its step, and whether it failed.

    A doubt mends no failure: what failed has failed until it passes. But a hardness inside its limits, near
    one of them, asks for no more than another measurement.
    """
    latest: dict[tuple[str, str], tuple[Outcome, Step, bool]] = {}
    for one in state.courses():
        if one.step.number <= len(state.records) and one.step.does(Does.JOINS):  # what was tacked is welded
            latest = {
                name: found
                for name, found in latest.items()
                if not (_is_tack(found[1]) and name[0] in (*one.step.zones, one.step.lays))
            }
        for outcome in one.outcomes:
            reading = outcome.mark.reading
            if outcome.questioned:
                continue
            name = reading.zone, reading.dimension
            heat = one.step.does(Does.QUENCHES) and reading.dimension == "temperature"
            if heat and past_the_magnet(outcome):
                latest = {of: was for of, was in latest.items() if of[0] != name[0] or not _is_early(of[1])}
            if reading.dimension in SHOP_TESTS or reading.dimension == HARDNESS:
                if outcome.verdict is Verdict.GOOD and _tells_of_quench(reading.dimension):
                    latest = {
                        of: was for of, was in latest.items() if of[0] != name[0] or not _is_early(of[1])
                    }
                failed_before = name in latest and latest[name][2] and not _is_inside(outcome)
                latest[name] = outcome, one.step, outcome.verdict is Verdict.OUT or failed_before
    for outcome, step, failed in latest.values():
        if outcome.verdict not in (None, Verdict.GOOD):
            yield outcome, step, failed
    for wrong in wrong_heats(state):
        yield wrong.outcome, wrong.step, True


def _is_inside(outcome: Outcome) -> bool:
    """Whether it is good, or a hardness that is in doubt inside its limits."""
    if outcome.judged is None or outcome.mark.reading.dimension != HARDNESS:
        return outcome.verdict is Verdict.GOOD
    return outcome.judged.beyond_mm <= 0.0


def _tells_of_quench(dimension: str) -> bool:
    """Whether it proves that a quench took, whatever was tried on its way to the heat."""
    return dimension == HARDNESS or Does.QUENCHES in SHOP_TESTS[dimension].mended_by


def _is_early(dimension: str) -> bool:
    """Whether it is tried as the metal heats, and a failure means: not yet."""
    return dimension in SHOP_TESTS and SHOP_TESTS[dimension].not_yet


def _is_tack(step: Step) -> bool:
    """Whether a step only holds what the weld that follows makes one."""
    return operation(step.operation).UNSAFE_UNTIL is Does.JOINS


def _what_is_wrong(outcome: Outcome) -> str:
    if outcome.verdict not in (Verdict.OUT, Verdict.MORE_TO_GO):
        return "in doubt"
    if outcome.mark.reading.dimension in SHOP_TESTS:
        passed = Result.of(outcome.mark.reading.size_mm) is Result.PASS
        return "shows it hard, where no step hardens it" if passed else "failed"
    if outcome.mark.reading.dimension == "soak":
        return "too short" if _is_low(outcome) else "too long"
    return "too low" if _is_low(outcome) else "too high"


def _is_told(outcome: Outcome) -> bool:
    """Whether it is known what is done about it, apart from another treatment: of a heat, or of a file."""
    return outcome.mark.reading.dimension in (*OF_TREATMENT, FILE_TEST)


def _is_low(outcome: Outcome) -> bool:
    return outcome.judged is not None and outcome.judged.below
