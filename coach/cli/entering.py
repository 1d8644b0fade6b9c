"""Something entered for a job from the command line, and the answer to it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.opening import a_job
from coach.cli.page import paragraph, set_page
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import Read, Take, plain

if TYPE_CHECKING:
    from coach.bench.answer import Answer
    from coach.bench.care import SaidOnce
    from coach.bench.session import Session
    from coach.bench.standing import Standing
    from coach.telling.page import Section

_LONGEST_NUMBER = 12


class Told(NamedTuple):
    """What the coach says to something that was entered."""

    sentence: str  # the answer
    entry: int  # the number of the entry made
    bad_news: bool  # whether it is off plan, gone past, out or questioned
    care: tuple[SaidOnce, ...]  # what holds all day, said once: as a job begins, before its first fire


class Entered(NamedTuple):
    """What was entered for a job, and where it stands now."""

    job: str  # its name
    answers: tuple[Told, ...]  # what the coach says to each thing entered
    standing: Standing


JOB = Take("job", "the job's name, or as much of it as no other begins with", "JOB", needed=True)
"""Of a command that is about one job."""


def number_of(what: str, such_as: str) -> Read:
    """A reader of a count or a number; raises Refused when it is not one."""

    def read(typed: str) -> int:
        if not (typed.isascii() and typed.isdigit() and len(typed) <= _LONGEST_NUMBER):
            raise Refused(f"{typed[:20]!r} is not {what}: type a whole number, such as {such_as}.")
        return int(typed)

    return plain(read)


BLOWS = Take(
    "--blows",
    "how many blows were struck in the heat that ends with it, where you have counted them",
    "N",
    number_of("a number of blows", "40"),
)
"""Of a command that ends a heat."""


def with_blows(session: Session, blows: int | None, ends: Callable[[], Answer]) -> list[Answer]:
    """The answers to a count of the blows of the last heat, where one is said, and to what ends that heat."""
    if blows is None:
        return [ends()]
    with session.together():
        return [session.count_blows(blows), ends()]


ENTRY = Take(
    "entry", "its number, as `coach history` shows it", "ENTRY", number_of("the number of an entry", "12")
)


def entering(what: Callable[[Session, Asked], Answer]) -> Callable[[Asked], Reply[Entered]]:
    """The `run` of a command that enters one thing for the job that its command line names."""

    def run(asked: Asked) -> Reply[Entered]:
        with a_job(asked) as session:
            return answered(asked, session, [what(session, asked)])

    return run


def answered(
    asked: Asked, session: Session, answers: Sequence[Answer], stands: Sequence[Section] = ()
) -> Reply[Entered]:
    """The reply to what was entered: what the coach says to each, and where the job stands now.

    `stands` tells where it stands, instead of the few usual lines. What the screens begin with is kept.
    """
    from coach.cli.glimpse import keep_glimpse
    from coach.telling.care import care_sections
    from coach.telling.entered import answer_text
    from coach.telling.page import page
    from coach.telling.standing import bearing
    from coach.telling.writing import Shown

    standing, shown = session.standing(), Shown(session.system)
    told = [Told(answer_text(one, shown), one.entry, one.bad_news, one.care) for one in answers]
    keep_glimpse(session, asked.units)
    care = (part for one in answers for part in care_sections(one.care))
    return reply(
        [
            *(line for one in told for line in paragraph(one.sentence)),
            *set_page(page(*care, *(stands or [bearing(standing, shown)]))),
        ],
        Entered(session.job, tuple(told), standing),
        bad_news=any(one.bad_news for one in answers),
    )
