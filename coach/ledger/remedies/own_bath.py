"""Own bath: steel that its quench is too slow for, or cracks in, is quenched in what it asks for."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Again, Amendment, NewBath
from coach.ledger.course import ReadingMark
from coach.ledger.hot_work import steels_of
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.do_again import caution_again, done_again, put_in_after, too_slow, with_it
from coach.ledger.step_again import title_again
from coach.ledger.tempered import gentler_bath, own_bath
from coach.operations import Does
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Words, as_words, run_on, say
from coach.recipe.model import Step

#: What is read of steel that was quenched, besides the tests that are not made as it heats (our choice).
_OF_QUENCHED = ("hardness", "warp")


class OwnBath(Remedy):
    """Before the quench the bath is changed; after one too slow the steel is quenched once more."""

    NAME = "own bath"
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every quench that is too mild for its steel, or that is ahead and cracks it.

        But what failed a test is made anew.
        """
        soft = {failed.zone for failed in situation.failed if failed.is_too_soft}
        quenches = [step for step in situation.plan.recipe.steps if step.does(Does.QUENCHES)]
        last = {zone: step for step in quenches for zone in step.zones}
        for step in {step.number: step for step in last.values()}.values():
            bath, ahead = own_bath(situation.plan, step), not _is_quenched(situation, step)
            if ahead and (gentler := gentler_bath(situation.plan, step)):
                yield _changed(situation, step, gentler)
            elif not bath or soft & {*step.zones}:
                continue
            elif ahead:
                yield _changed(situation, step, bath)
            else:
                yield _again(situation, step, bath)


def _is_quenched(situation: Situation, step: Step) -> bool:
    """Whether a step is behind, or something is read in it that is read of quenched steel alone."""
    course = situation.course
    if course is None or step.number != course.step.number:
        return step.number < situation.next_step
    read = (mark.reading.dimension for mark in course.marks if isinstance(mark, ReadingMark))
    return any(one in _OF_QUENCHED or (one in SHOP_TESTS and not SHOP_TESTS[one].as_it_heats) for one in read)


def _changed(situation: Situation, step: Step, bath: str) -> Idea:
    return Idea(
        about=step.zones[0],
        title=say("Quench the {} in {}", step.zones[0], bath),
        changes=say("{} Nothing else of step {} changes.", _why(situation, step, bath), step.number),
        amendment=Amendment(baths=(NewBath(step.number, bath),)),
        caution=_minded(situation, step),
    )


def _again(situation: Situation, step: Step, bath: str) -> Idea:
    """Before the step in hand, where that is not begun: nothing is gained by a temper of what is soft."""
    after = put_in_after(situation, step)
    again, heats = done_again(situation, step, after)
    return Idea(
        about=step.zones[0],
        title=as_words(title_again(step.title, bath)),
        changes=say("Put in after step {}{}. {}", after, with_it(step, again), _why(situation, step, bath)),
        amendment=Amendment(
            again=tuple(
                Again(after, one.number, heats[one.number], (), bath if one is step else "") for one in again
            )
        ),
        heats=sum(heats.values()),
        caution=run_on((caution_again(situation, step, again), _minded(situation, step))),
    )


def _why(situation: Situation, step: Step, bath: str) -> Words:
    metals = ", ".join(metal.name for metal in steels_of(situation.plan, step))
    if gentler_bath(situation.plan, step):
        return say("{} is quenched in {}, and can crack in {}.", metals, bath, step.quench)
    return say("{} is quenched in {}; {} {}", metals, bath, step.quench, too_slow(step))


def _minded(situation: Situation, step: Step) -> Words:
    told = (one.quench.words for one in steels_of(situation.plan, step) if one.quench is not None)
    return as_words(" ".join(dict.fromkeys(told)))
