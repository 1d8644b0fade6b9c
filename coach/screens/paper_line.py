"""A line of a paper note, typed in the evening: a size, a heat, the end of a step, a loss or a note."""

from __future__ import annotations

import re
from typing import Final

from coach.bench.answer import Answer
from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.log.kinds.metal_lost import NOT_SAID, TOOK
from coach.quantities import Refusal
from coach.recipe.model import Step
from coach.screens.beside_sizes import count_read

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
    """Enter what a line of a paper note says, of that step; raises Refusal where it cannot be read or be."""
    line = typed.strip()
    if heat := _HEAT.fullmatch(line):
        return _heat(session, step, heat["at"] or "", heat["blows"])
    if fire := _FIRE.fullmatch(line):
        if fire["out"]:
            return session.fire_and_out_then(step, fire["at"], fire["out"])
        return session.fire_then(step, fire["at"])
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
    then = session.then(step, found["at"] or "")
    return session.read(_named(then.step, found["name"].strip()), found["size"].strip(), then=then)


def _heat(session: Session, step: int, at: str, blows: str | None) -> Answer:
    if blows is None:
        return session.heat_then(step, at)
    with session.together():
        answer = session.heat_then(step, at)
        session.count_blows(count_read(blows), of=answer.entry)
    return answer


def such_as(step: Step) -> str:
    """A size that a step asks for, as it may be typed."""
    name = step.checks[0] if step.checks else f"{step.zones[0]}.length"
    return name.removeprefix(f"{step.zones[0]}.").replace("_", " ") if len(step.zones) == 1 else name


def _named(step: Step, name: str) -> str:
    return name if "." in name or len(step.zones) != 1 else f"{step.zones[0]}.{name}"
