"""What follows from something that was entered."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

from coach.bench.care import SaidOnce
from coach.bench.checks import Check
from coach.bench.righting import Right
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities.words import NOTHING, Words


class Unsettled(NamedTuple):
    """What of a step, and of the whole job at its last step, is not as it should be."""

    checks: tuple[Check, ...] = ()
    to_right: tuple[Right, ...] = ()
    outside: Mapping[str, Words] = MappingProxyType({})  # of those, what the drawing refuses as it ends here
    counted: Mapping[str, Words] = MappingProxyType({})  # of them, what counts as worked on since it was read
    seem_outside: tuple[str, ...] = ()  # of those outside, what lies too near its limit to be sure
    unread: tuple[FinishedSize, ...] = ()  # besides, what nobody has measured and counts from its end on
    heats: Words = NOTHING  # that it is a treatment which lacks some of its heats

    def __bool__(self) -> bool:
        """Whether there is anything."""
        return bool(self.checks or self.to_right or self.unread or self.heats)

    @property
    def is_bad_news(self) -> bool:
        """Whether it was left over what is surely out, gone past or questioned, or is to be put right."""
        outside = bool(self.outside.keys() - {*self.seem_outside})
        return (
            bool(self.to_right) or outside or any(one.is_questioned or one.is_beyond for one in self.checks)
        )


class StepDone(NamedTuple):
    """A step that was finished."""

    number: int
    title: str
    unmarked: int  # so many planned heats count, for none was marked; 0 where heats were marked or told
    unsettled: Unsettled
    following: str  # the step that comes; "" after the last


Did: TypeAlias = Words | Check | StepDone
"""What was done; of a reading the size that was read."""


class Answer(NamedTuple):
    """What follows from something that was entered."""

    did: Did
    entry: int  # the number of the entry made
    bad_news: bool = False  # off plan, gone past, out, or a reading that is questioned
    replanned: bool = False  # whether the job stands otherwise by it, so that why it does is worth telling
    beware: Words = NOTHING  # what hurts the piece in what was entered, such as a heat that burns it
    care: tuple[SaidOnce, ...] = ()  # what holds all day, where this is the moment to say it
    others: tuple[Check, ...] = ()  # other sizes that are judged anew by it
    meanwhile: Words = NOTHING  # what another window had entered unseen before it

    @property
    def is_outvoted(self) -> bool:
        """Whether it is a reading that does not count against those before it, which its row tells of."""
        told = self.did.reading if isinstance(self.did, Check) else None
        return told is not None and told.entry < self.entry and bool(told.outvotes)

    def alarms(self, *, was_off: bool) -> bool:
        """Whether it is bad news of its own: that a piece which `was_off` plan still is, is none."""
        if not was_off or not self.bad_news:
            return self.bad_news
        if isinstance(self.did, Check):
            return self.is_outvoted or any(
                one.is_questioned or one.is_beyond for one in (self.did, *self.others)
            )
        if isinstance(self.did, StepDone):
            return self.did.unsettled.is_bad_news
        return bool(self.beware)


def as_it_stands(answers: Sequence[Answer]) -> list[Answer]:
    """Answers to sizes that were entered in one go: of each what is so once all of them are, and that once.

    A size that was read twice among them keeps what was said of each.
    """
    said = Counter(answer.did.name for answer in answers if isinstance(answer.did, Check))
    last: dict[str, tuple[int, Check]] = {}
    for at, answer in enumerate(answers):
        told = (answer.did, *answer.others) if isinstance(answer.did, Check) else answer.others
        last |= {check.name: (at, check) for check in told}
    found = []
    for at, answer in enumerate(answers):
        did, others = answer.did, answer.others
        if isinstance(did, Check) and said[did.name] == 1:
            did = last[did.name][1]
        others = tuple(one for one in others if last[one.name] == (at, one) and said[one.name] != 1)
        was = [one for one in (answer.did, *answer.others) if isinstance(one, Check)]
        now = [one for one in (did, *others) if isinstance(one, Check)]
        # What else is bad news, as that the job is off plan, stays so.
        bad = any(map(_is_bad, now)) or (answer.bad_news and not any(map(_is_bad, was)))
        found.append(answer._replace(did=did, others=others, bad_news=bad))
    return found


def _is_bad(check: Check) -> bool:
    return check.is_questioned or check.is_beyond
