"""A second quench in one step, with neither a temper nor a normalising before it."""

from __future__ import annotations

from typing import NamedTuple

from coach.ledger.course import Course, HeatMark, ReadingMark
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.operations.shop_test import Result
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities.words import Words, say

_HARDNESS, _WARP, _CRACK_TEST, _TEMPERATURE = "hardness", "warp", "crack_test", "temperature"


class QuenchedAgain(NamedTuple):
    """A heat that leads to a second quench."""

    entry: int  # of its mark
    surely: bool  # whether something was read before it that is read of quenched steel alone
    looked: bool  # whether a crack test passed since

    @property
    def words(self) -> Words:
        """What a second quench is."""
        surely, perhaps = "This is a second quench", "If it was quenched before, this is a second one"
        return say(
            "{}: it is one more chance to crack. Normalise it before, from its own heat in still air till it "
            "is black, then heat it again; look for a crack after.",
            surely if self.surely else perhaps,
        )


def quenched_again(course: Course) -> QuenchedAgain | None:
    """The last heat of a step that leads to a second quench; None where none does.

    A heat beyond those that are planned does, unless what was read last in the one before it says that the
    steel was too cold to be quenched, or too hot; surely so after what is read of hard steel alone.
    """
    if not course.step.does(Does.QUENCHES):
        return None
    found: QuenchedAgain | None = None
    wrong = {
        one.mark.entry
        for one in course.outcomes
        if one.verdict is Verdict.OUT and one.mark.reading.dimension == _TEMPERATURE
    }
    heats, hard, not_yet = 0, False, False
    for mark in course.marks:
        if isinstance(mark, HeatMark) and mark.sent_back:
            continue  # it was not quenched from: what follows is the same hardening
        if isinstance(mark, HeatMark):
            beyond = heats >= max(course.step.heats, 1) and not not_yet
            if heats and (hard or beyond):
                found = QuenchedAgain(mark.entry, hard, looked=False)
            heats, hard, not_yet = heats + 1, False, False
        elif isinstance(mark, ReadingMark):
            dimension, passed = mark.reading.dimension, mark.reading.size_mm == Result.PASS.size
            test = SHOP_TESTS.get(dimension)
            if test is not None and test.as_it_heats:
                not_yet = not passed
            elif dimension == _TEMPERATURE:
                not_yet = mark.entry in wrong
            elif test is not None or dimension in (_HARDNESS, _WARP):
                hard = True
                if found is not None and dimension == _CRACK_TEST and passed:
                    found = found._replace(looked=True)
    return found
