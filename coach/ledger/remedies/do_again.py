"""Do it again: a weld, a quench, a temper or a haft that failed its test is made once more."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from coach.forms import listed, said
from coach.ledger.amendment import Again, Amendment
from coach.ledger.course import is_worked_in
from coach.ledger.drawn_further import drawn_further
from coach.ledger.hot_work import steels_of
from coach.ledger.judging import is_little_over
from coach.ledger.quenched import best_quenched_hrc
from coach.ledger.remedies.base import TREATS, Failed, Idea, Remedy, Situation, Soundness
from coach.ledger.shop_test_of import shop_test_at
from coach.ledger.step_again import title_again
from coach.ledger.tempered import gentler_bath, own_bath
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import NOTHING, Words, as_words, celsius, mm, run_on, say
from coach.recipe.model import Step

_HARDNESS: Final = "hardness"
_TEMPERATURE: Final = "temperature"


class DoAgain(Remedy):
    """What failed is put in before the first step not begun, with whatever its fire undoes."""

    NAME = "do again"
    HELPS = False  # a test is no part of the metal account
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterable[Idea]:
        """For every failed test, each step that could mend it; none once it is put in."""
        found: dict[int, Idea] = {}
        soft = {one.zone for one in situation.failed if one.was_softened and not situation.is_met(one)}
        for failed in situation.failed:
            if situation.is_met(failed) or _soaked_too_long(failed):
                continue
            if failed.tacked:  # no weld yet: it is tacked again, and then welded
                tack = situation.plan.recipe.steps[failed.step - 1]
                found.setdefault(tack.number, _idea(situation, failed, tack))
                continue
            # No temper makes it harder: another quench does, which is tempered anew.
            again = dict.fromkeys(
                Does.QUENCHES if what is Does.TEMPERS and failed.zone in soft else what
                for what in failed.mended_by
            )
            for what in again:
                for step in _latest(situation, what, failed):
                    if step.does(Does.QUENCHES) and (
                        _is_cracked(situation, step) or _is_out_of_reach(situation, failed, step)
                    ):
                        continue
                    found.setdefault(step.number, _idea(situation, failed, step))
        return found.values()


#: A temper is drawn further in steps of so much (common practice, no source).
_HOTTER = (
    "A temper can always be drawn further: go 20 to 30 °C hotter than it has been, for as long, and measure "
    "the hardness again."
)
_DRAWN: Final = (
    "A temper can always be drawn further: hotter than the {} it has had, to {} at the least and {} at the "
    "most, for as long, and measure the hardness again."
)


_TOO_SLOW: Final = "is too slow for it so thick."
_AIR: Final = "alone does not harden it."
#: What was too hot to be quenched was not, if it was read in time (common practice, no source).
_UNQUENCHED: Final = "If it is not quenched yet, do not: end step {} without it, and do this in its place."
_LET_FALL: Final = (
    "If it is not quenched yet it needs none of this: let it fall to its heat, out of the fire, read it "
    "again and quench it from there."
)
_HOTTER_FIRST: Final = "If it is not quenched yet it needs none of this: heat it further, and read it again."


def too_slow(step: Step) -> str:
    """What is said of the bath of a step that is too mild for its steel, to go on after its name."""
    return _AIR if step.quench == "air" else _TOO_SLOW


def _soaked_too_long(failed: Failed) -> bool:
    """Whether a hardening heat was held too long: once more costs its skin more, its grain hardly grew."""
    return failed.treatment is Does.QUENCHES and failed.dimension == "soak" and not failed.below


def _unquenched(situation: Situation, failed: Failed, step: Step) -> Words:
    """What is done where a heat was wrong in the step in hand, which may still be without its quench."""
    in_hand = situation.course is not None and situation.course.step.number == step.number
    if not in_hand or failed.treatment is not Does.QUENCHES or situation.course is None:
        return NOTHING
    if failed.below:
        return as_words(_HOTTER_FIRST) if failed.dimension == _TEMPERATURE else NOTHING
    heats = [one for one in situation.course.outcomes if one.mark.entry == failed.entry]
    if any(one.outdone_by is None and is_little_over(step, one) for one in heats):
        return as_words(_LET_FALL)
    return say(_UNQUENCHED, step.number)


def _is_cracked(situation: Situation, step: Step) -> bool:
    """Whether what a quench would reach has a crack, which it would drive further."""
    lost = (one for one in situation.failed if one.spoils and not one.mended_by)
    return any(one.zone in step.metal for one in lost)


def _is_out_of_reach(situation: Situation, failed: Failed, step: Step) -> bool:
    """Whether a hardness was wanted that the best quench of its steels does not leave."""
    wanted = situation.plan.recipe.steps[failed.step - 1].targets.get(failed.dimension)
    if not failed.is_too_soft or failed.dimension != _HARDNESS or wanted is None:
        return False
    bands = [best_quenched_hrc(situation.plan, step, metal) for metal in steels_of(situation.plan, step)]
    known = [band[1] for band in bands if band is not None]
    return bool(known) and len(known) == len(bands) and max(known) < wanted.low


def _latest(situation: Situation, what: Does, failed: Failed) -> list[Step]:
    """The last step doing this that was done to a zone, or to each zone where none was to this one.

    A ring test tells of every joint in the piece, wherever it is noted; a file tells of the steel under it
    alone. No test tells of what was done later; but steel that was first treated later is treated again.
    """
    steps = [step for step in situation.plan.recipe.steps if step.does(what) and not step.again]
    by_zones = {step.zones: step for step in steps if step.number <= failed.step}
    here = [step for step in by_zones.values() if failed.zone in step.metal]
    if what not in TREATS:
        return here[-1:] or list(by_zones.values())
    since = [step for step in steps if step.number < situation.next_step and failed.zone in step.zones]
    return here[-1:] or since[:1]


_AFTER_FIRE: Final = (
    "Put in after step {}, for the {} lay in a fire after its temper{}. Where it is as hard as is wanted "
    "when it is measured, it needs none of this."
)


def _idea(situation: Situation, failed: Failed, step: Step) -> Idea:
    after = put_in_after(situation, step)
    again, heats = done_again(situation, step, after)
    slow = own_bath(situation.plan, step) if failed.is_too_soft and not failed.in_fire else ""
    bath = gentler_bath(situation.plan, step) or slow
    tested = next((one for one in again if failed.name in one.checks), again[-1])
    wrong, anew = "in doubt since it failed" if failed.doubted else "failed", "The test is made anew."
    further = None
    if step.does(Does.TEMPERS) and failed.is_too_hard:
        further = drawn_further(situation.plan, step, situation.next_step, situation.own, situation.read_in)
        anew = _HOTTER
    if failed.treatment is not None:
        tested, anew = step, "It is measured anew."
        low, high = ("short", "long") if failed.dimension == "soak" else ("low", "high")
        wrong = f"was too {low if failed.below else high}"
    return Idea(
        about=f"{step.operation} {step.zones[0]}",
        title=as_words(title_again(step.title, bath)),
        changes=run_on(
            (
                say(_AFTER_FIRE, after, failed.zone, with_it(step, again))
                if failed.in_fire
                else say(
                    "Put in after step {}, for the {} of the {} {}{}.",
                    *(after, said(failed.dimension), failed.zone, wrong, with_it(step, again)),
                ),
                as_words(f"In {bath} this time: {step.quench} {too_slow(step) if slow else 'can crack it.'}")
                if bath
                else NOTHING,
                _unquenched(situation, failed, step),
                as_words(anew)
                if further is None
                else say(_DRAWN, *map(celsius, (further.had_c, further.heat_c.low, further.heat_c.high))),
            )
        ),
        amendment=Amendment(
            again=tuple(
                Again(
                    after,
                    one.number,
                    heats[one.number],
                    (failed.name,) if one is tested else (),
                    bath if one is step else "",
                    further.heat_c if one is step and further is not None else None,
                )
                for one in again
            )
        ),
        heats=sum(heats.values()),
        at_once=step.does(Does.JOINS) or step.does(Does.CLOSES),
        caution=_caution(situation, failed, step, again),
    )


def put_in_after(situation: Situation, step: Step) -> int:
    """The number of the step that a step is done again after: that in hand, or before it if not begun.

    What is ahead is done once, on the metal as it is then: no edge is honed and then forged.
    """
    course = situation.course
    if course is None or is_worked_in(course.step, course.marks):
        return min(situation.next_step, len(situation.plan.recipe.steps))
    return max(situation.next_step - 1, step.number)


def done_again(situation: Situation, step: Step, after: int) -> tuple[list[Step], dict[int, int]]:
    """The steps that are put in after another to do one again, in their order, and the heats of each."""
    done = [one for one in situation.plan.recipe.steps[:after] if not one.again]
    again = [step, *_undone_by(step, done)]
    heats = {one.number: one.heats for one in again}
    todo = operation(step.operation)
    if todo.AGAIN_HEATS is not None:
        heats[step.number] = todo.AGAIN_HEATS
    if todo.AGAIN_AFTER is not None:
        # Not a whole head whose other end is hard already.
        hard = _hard_besides(step, done)
        before = [
            one
            for one in done
            if one.does(todo.AGAIN_AFTER) and {*step.zones} <= one.metal and not one.metal & hard
        ]
        again[:0] = before[-1:]
        heats |= {one.number: 1 for one in before[-1:]}
    return again, heats


def with_it(step: Step, again: list[Step]) -> str:
    """What is done again beside a step: "; with it normalise the face"; empty for nothing."""
    beside = [one.title[:1].lower() + one.title[1:] for one in again if one is not step]
    return f"; with it {listed(beside)}" if beside else ""


def _undone_by(step: Step, done: list[Step]) -> list[Step]:
    """What was done since and another fire at a step undoes, in its order; a normalising reaches further."""
    if step.does(Does.FITS_A_HAFT):
        return []
    found = []
    reached = step.metal
    for one in done:
        if one.number <= step.number or not operation(one.operation).UNDONE_BY_FIRE:
            continue
        if one.does(Does.FITS_A_HAFT) or one.metal & reached:  # the wood goes into the fire with any end
            found.append(one)
            reached |= one.metal if one.heats else set()
    return found


def _hard_besides(step: Step, done: Sequence[Step]) -> set[str]:
    """What another quench has hardened that this one does not reach."""
    return {zone for one in done if one.does(Does.QUENCHES) for zone in one.metal} - step.metal


#: What is hard softens from a temper's heat on, long before it glows (common practice, no source).
_OTHER_END: Final = "The {} is hard already, and no whole head is normalised then: heat the {} alone, the {} "
_KEPT_COLD: Final = "wrapped wet or in water, so that no colour runs into it."


def _normalised(situation: Situation, step: Step, again: list[Step]) -> list[str]:
    """What comes before another quench: it is normalised, or what its grade's file says where it is not.

    Neither where that would draw the temper of what another quench has hardened: that end is kept cold.
    """
    after = operation(step.operation).AGAIN_AFTER
    if after is not Does.NORMALISES:
        return []
    recipe = situation.plan.recipe
    done = [one for one in recipe.steps[: put_in_after(situation, step)] if not one.again]
    hard = _hard_besides(step, done)
    reached = [one.metal & hard for one in done if one.does(after) and {*step.zones} <= one.metal]
    drawn = [zone for zone in recipe.drawing if any(zone in one for one in reached)]
    if drawn and not any(one.does(after) for one in again):
        kept = listed(drawn)
        return [_OTHER_END.format(kept, step.zones[0], kept) + _KEPT_COLD]
    steels = steels_of(situation.plan, step)
    own = [one.unknown["normalising_low_c"] for one in steels if "normalising_low_c" in one.unknown]
    return own or ["Normalise before it."]


#: A welding heat burns what is thinner than this before the joint is hot (judgement).
_THIN_MM = 4.0
_EDGES = ("end_thickness", "thickness")


def _caution(situation: Situation, failed: Failed, step: Step, again: list[Step]) -> Words:
    first = NOTHING
    if failed.dimension in SHOP_TESTS:
        made_at = situation.plan.recipe.steps[failed.step - 1]
        first = as_words(shop_test_at(situation.plan, made_at, failed.zone, failed.dimension).first)
    words = run_on(filter(None, (first, caution_again(situation, step, again))))
    thin = _thin_end(situation, step)
    if step.heat_kind is not HeatKind.WELDING or thin is None:
        return words
    burns = (
        "A welding heat burns an end that is {} thin before the joint is hot: keep it out of the fire's heart"
    )
    return run_on((words, say(burns + ", and cool it between the heats.", mm(thin))))


def caution_again(situation: Situation, step: Step, again: list[Step]) -> Words:
    """What to take care of where a step is done once more, with those that its fire undoes."""
    told = [operation(step.operation).AGAIN_CAUTION, *_normalised(situation, step, again)]
    told += [operation(one.operation).BEFORE_FIRE for one in again if one.operation != step.operation]
    return as_words(" ".join(dict.fromkeys(text for text in told if text)))


def _thin_end(situation: Situation, step: Step) -> float | None:
    """How thick the thinnest ground end in the fire of a step is now, where that is thin; else None."""
    now, reached = situation.now, step.metal
    found = [
        now.size(zone, name).value
        for one in situation.plan.recipe.steps[: situation.next_step - 1]
        if operation(one.operation).FIXES
        for zone in sorted(reached & {*one.zones})
        for name in _EDGES
        if name in one.targets and name in now.zones[zone].shape.dimensions
    ]
    return min((size for size in found if size < _THIN_MM), default=None)
