"""A line of a paper note, typed in the evening: a size, a heat, the end of a step, a loss or a note."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final, TypeVar

from coach.bench.answer import Answer
from coach.bench.entering import EntryFault
from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.log.kinds.metal_lost import NOT_SAID, TOOK
from coach.quantities import Refusal
from coach.recipe.model import Step
from coach.screens.beside_sizes import count_read

_Found = TypeVar("_Found")

_AT: Final = r"(?:\s+at\s+(?P<at>[\d: -]+))?"
_SIZE: Final = re.compile(rf"(?P<name>[^=]+)=(?P<size>.+?){_AT}")
_HEAT: Final = re.compile(
    r"(?:heat|out(?=\s))(?:\s+(?:at\s+)?(?P<at>[\d: -]+?))?(?:,?\s+(?P<blows>\d+)\s+blows?)?", re.IGNORECASE
)
_FIRE: Final = re.compile(
    r"(?:in\s+)?fire\s+(?:at\s+)?(?P<at>[\d: -]+?)(?:[,\s]\s*out\s+(?:at\s+)?(?P<out>[\d: -]+))?",
    re.IGNORECASE,
)
_DONE: Final = re.compile(r"done\s+(?:at\s+)?(?P<at>[\d: -]+)", re.IGNORECASE)
_BEGUN: Final = re.compile(r"begun\s+(?:at\s+)?(?P<at>[\d: -]+)", re.IGNORECASE)
_NOTE: Final = re.compile(rf"note\s+(?P<text>[^=\s].*?){_AT}", re.IGNORECASE)
#: A zone, how much of it, and what took it.
_LOST: Final = re.compile(
    rf"lost\s+(?P<zone>[^=]+)=(?P<much>.+?)(?:,?\s+(?:by\s+)?(?P<by>{'|'.join(TOOK)}))?{_AT}", re.IGNORECASE
)


def entered_from_paper(session: Session, step: int, typed: str) -> Answer:
    """Enter what a line of a paper note says, of that step; raises Refusal where it cannot be read or be.

    Where it says a time at which that step was not in hand, it is of the one that was.
    """
    line = typed.strip()
    if heat := _HEAT.fullmatch(line):
        return _heat(session, step, heat["at"] or "", heat["blows"])
    if fire := _FIRE.fullmatch(line):
        went_in, out = fire["at"], fire["out"]
        if out:
            return _in_hand_then(step, went_in, lambda of: session.fire_and_out_then(of, went_in, out))
        return _in_hand_then(step, went_in, lambda of: session.fire_then(of, went_in))
    if ended := _DONE.fullmatch(line):
        return session.done(at=ended["at"])
    if began := _BEGUN.fullmatch(line):
        return session.begun_before(began["at"])
    if lost := _LOST.fullmatch(line):
        return session.lose(LossAsked(lost["zone"], lost["much"], lost["by"] or NOT_SAID), lost["at"] or "")
    if note := _NOTE.fullmatch(line):
        return session.note(note["text"], note["at"] or "")
    found = _SIZE.fullmatch(line)
    if found is None:
        at_step = such_as(session.recipe.steps[step - 1])
        raise Refusal("Write the size, = and what was read, such as {}=31.5, or with at 14:30.", at_step)
    at = found["at"] or ""
    then = _in_hand_then(step, at, lambda of: session.then(of, at))
    return session.read(_named(then.step, found["name"].strip()), found["size"].strip(), then=then)


def _in_hand_then(step: int, at: str, enter: Callable[[int | None], _Found]) -> _Found:
    """What is entered of a step; where that was not in hand at the time that is said, of the one that was."""
    try:
        return enter(step)
    except EntryFault:
        if not at:
            raise
        return enter(None)


def _heat(session: Session, step: int, at: str, blows: str | None) -> Answer:
    if blows is None:
        return _in_hand_then(step, at, lambda of: session.heat_then(of, at))
    with session.together():
        answer = _in_hand_then(step, at, lambda of: session.heat_then(of, at))
        session.count_blows(count_read(blows), of=answer.entry)
    return answer


def such_as(step: Step) -> str:
    """A size that a step asks for, as it may be typed."""
    name = step.checks[0] if step.checks else f"{step.zones[0]}.length"
    return name.removeprefix(f"{step.zones[0]}.").replace("_", " ") if len(step.zones) == 1 else name


def _named(step: Step, name: str) -> str:
    return name if "." in name or len(step.zones) != 1 else f"{step.zones[0]}.{name}"
