"""`coach read`: sizes as they were measured."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.entering import Entered, answered, job_argument
from coach.cli.opening import a_job
from coach.cli.reply import Refused, Reply

if TYPE_CHECKING:
    from coach.bench.answer import Answer
    from coach.bench.session import Session

SUMMARY = "Enter sizes as measured; all of them or, when one cannot be read, none."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument(
        "sizes",
        metavar="ZONE.DIMENSION=SIZE",
        nargs="+",
        help="such as blade.thickness=31.5 or poll.side=1-3/8in",
    )
    parser.add_argument(
        "--hot",
        metavar="HEAT",
        nargs="?",
        const="",
        help="measured hot: at the step's own heat, or at a temperature (950C) or colour (light orange)",
    )
    parser.add_argument("--gauge", help="what it was measured with, when it is not the step's own gauge")
    parser.add_argument("--insist", action="store_true", help="stand by it though it seems impossible")


def arrange(words: list[str]) -> list[str]:
    """Keep `--hot`, which may stand without a heat, from taking the size that follows it for one."""
    arranged: list[str] = []
    for place, word in enumerate(words):
        if word == "--":
            return arranged + words[place:]
        follower = words[place + 1] if place + 1 < len(words) else ""
        arranged.append("--hot=" if word == "--hot" and "=" in follower else word)
    return arranged


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Enter the readings in their order, once all of them can be read."""
    readings = [_named(text) for text in asked.sizes]
    with a_job(asked) as session:
        for name, size in readings:
            session.parsed(name, size, gauge=asked.gauge, hot=asked.hot, insist=asked.insist)
        return answered(session, _entered(session, readings, asked))


def _named(text: str) -> tuple[str, str]:
    """The name and the size in `blade.thickness=31.5`."""
    name, equals, size = text.partition("=")
    if not equals or not name.strip():
        raise Refused(f"{text!r} is no named size: write zone.dimension=size, such as blade.thickness=31.5.")
    return name, size


def _entered(session: Session, readings: list[tuple[str, str]], asked: argparse.Namespace) -> list[Answer]:
    """The answer to each reading; when the log fails midway, what was entered before is told."""
    from coach.log.jobs import LogError

    answers: list[Answer] = []
    for name, size in readings:
        try:
            answers.append(session.read(name, size, gauge=asked.gauge, hot=asked.hot, insist=asked.insist))
        except LogError as error:
            if not answers:
                raise
            raise Refused(
                f"{error} The readings before {name} are entered, {len(answers)} of {len(readings)}."
            ) from error
    return answers
