"""`coach read`: sizes as they were measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB, Entered, answered, number_of
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Refused, Reply
from coach.quantities.takes import Take, Typed, flag, plain

if TYPE_CHECKING:
    from coach.bench.answer import Answer
    from coach.bench.session import Session

SUMMARY = "Enter sizes as measured; all of them or, when one cannot be entered, none."


def named_size(text: str) -> tuple[str, str]:
    """The name and the size in `blade.thickness=31.5`; raises Refused."""
    name, equals, size = text.partition("=")
    if not equals or not name.strip():
        raise Refused(f"{text!r} is no named size: write zone.dimension=size, such as blade.thickness=31.5.")
    return name, size


TAKES = (
    JOB,
    Take(
        "sizes",
        "such as blade.thickness=31.5 or poll.side=1-3/8in",
        "ZONE.DIMENSION=SIZE",
        plain(named_size),
        Typed.SEVERAL,
        needed=True,
    ),
    Take(
        "--hot",
        "measured hot: at the step's own heat, or at a temperature (950C) or colour (light orange)",
        "HEAT",
        alone="",
    ),
    Take("--gauge", "what it was measured with, when it is not the step's own gauge", "GAUGE"),
    flag("--insist", "stand by it though it seems impossible"),
    Take("--step", "the step it was taken at, when that was an earlier one", "N", number_of("a step", "12")),
    Take("--at", "when it was taken: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
)


def arrange(words: list[str]) -> list[str]:
    """Keep `--hot`, which may stand without a heat, from taking the size that follows it for one."""
    arranged: list[str] = []
    for place, word in enumerate(words):
        if word == "--":
            return arranged + words[place:]
        follower = words[place + 1] if place + 1 < len(words) else ""
        arranged.append("--hot=" if word == "--hot" and "=" in follower else word)
    return arranged


def run(asked: Asked) -> Reply[Entered]:
    """Enter the readings in their order, all of them or none."""
    with a_job(asked) as session:
        return answered(asked, session, _entered(session, asked))


def _entered(session: Session, asked: Asked) -> list[Answer]:
    """The answer to each reading."""
    from coach.bench.meanwhile import all_apart, on_top
    from coach.log.errors import LogError

    try:
        answers, missed = on_top(lambda: _together(session, asked), all_apart)
    except LogError as error:
        if len(asked.sizes) > 1:
            raise Refused("{} None of the {} readings is entered.", error.words, len(asked.sizes)) from error
        raise
    if missed:
        answers[-1] = answers[-1]._replace(meanwhile=session.told_of(missed))
    return answers


def _together(session: Session, asked: Asked) -> list[Answer]:
    from coach.bench.answer import as_it_stands

    answers: list[Answer] = []
    with session.together():
        for name, size in asked.sizes:
            then = session.then(asked.step, asked.at or "")
            how = {"gauge": asked.gauge, "hot": asked.hot, "insist": asked.insist, "then": then}
            answers.append(session.read(name, size, **how))
    return as_it_stands(answers)
