"""Print the ratios: `python -m tests.benchmarks [--rounds N] [--only WORD …]`."""

from __future__ import annotations

import argparse
import compileall
import platform
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import coach
from tests.benchmarks import empty_app, long_day, long_job, recompute, shops
from tests.benchmarks.processes import (
    coach_command,
    cpu_at_rest,
    cpu_to_answer,
    cpu_to_end,
    cpu_to_first_paint,
    open_and_leave_alone,
)
from tests.benchmarks.timing import Measurement, compare

MANY = 10_000
EACH = 20
REST_S = 8.0
_PASS = "python -c pass"
_EMPTY = "an empty application"
_TYPING = "an Input that answers"
_ON_THE_BENCH = "─ Do ─"


def commands(home: Path, _: Callable[[str], bool]) -> Iterator[tuple[str, str, Measurement, Measurement]]:
    """The commands that print and end, each held against an interpreter that does nothing.

    Plans are told with nothing remembered, and once more again.
    """
    adze = shops.adze_half_forged(home / "adze")
    hook = shops.hook_part_forged(home / "hook")
    nothing = partial(cpu_to_end, [sys.executable, "-c", "pass"], adze.environ)

    def told(name: str, place: shops.Place, *words: str) -> tuple[str, str, Measurement, Measurement]:
        ended = partial(cpu_to_end, [*coach_command(), *words], place.environ, (0, 1))
        return name, _PASS, ended, nothing

    def told_anew(name: str, place: shops.Place, *words: str) -> tuple[str, str, Measurement, Measurement]:
        def ended() -> float:
            shutil.rmtree(place.home / "cache", ignore_errors=True)
            return cpu_to_end([*coach_command(), *words], place.environ, (0, 1))

        return name, _PASS, ended, nothing

    yield told("--version", adze, "--version")
    yield told("--help", adze, "--help")
    yield told_anew("plan, adze", adze, "plan", shops.ADZE)
    yield told("plan, adze, again", adze, "plan", shops.ADZE)
    yield told_anew("plan, hook", adze, "plan", shops.HOOK)
    yield told("check, adze", adze, "check", shops.ADZE)
    yield told("where, adze half forged", adze, "where", shops.ADZE)
    yield told("where, hook", hook, "where", shops.HOOK)
    yield told("note, adze half forged", adze.copy(home / "noted"), "note", shops.ADZE, "even it up")
    yield told("jobs, 1 job", hook, "jobs")
    yield told(f"jobs, {MANY} jobs", shops.many_jobs(home / "many", MANY), "jobs")


def sizes(home: Path, wanted: Callable[[str], bool]) -> Iterator[tuple[str, str, Measurement, Measurement]]:
    """Many jobs and long ones, each held against few and short ones; nothing is remembered but where told."""

    def timed(place: shops.Place, *words: str, again: bool = False) -> Measurement:
        def once() -> float:
            if not again:
                shutil.rmtree(place.home / "cache", ignore_errors=True)
            return cpu_to_end([*coach_command(), *words], place.environ, (0, 1))

        return once

    nobodys, many = shops.Place(home / "nobody"), shops.many_jobs(home / "many", MANY)
    short, long = shops.long_job(home / "short", 100), shops.long_job(home / "long", 2000)
    empty = timed(nobodys, "jobs", again=True)
    yield f"size: jobs, {MANY} jobs, again", "an empty shop", timed(many, "jobs", again=True), empty
    yield f"size: jobs, {MANY} jobs", "an empty shop", timed(many, "jobs"), empty
    if wanted(name := f"size: jobs, {MANY} jobs of {EACH} entries"):  # which takes some time to be made
        of_entries = shops.many_jobs(home / "entries", MANY, EACH)
        yield f"{name}, again", "an empty shop", timed(of_entries, "jobs", again=True), empty
        yield name, "an empty shop", timed(of_entries, "jobs"), empty
    of_100 = timed(short, "where", shops.ADZE)
    yield "size: where, 2000 entries", "100 entries", timed(long, "where", shops.ADZE), of_100
    where = timed(long, "where", shops.ADZE)
    spare = "history", shops.ADZE, "--spare"
    yield "size: history --spare, 2000 entries", "where", timed(long, *spare), where
    again = timed(long, "where", shops.ADZE, again=True)
    yield "size: history --spare, again", "where, again", timed(long, *spare, again=True), again
    title = shops.title_in_hand(short, shops.ADZE)
    opened = [*coach_command(), "open", shops.ADZE]
    yield (
        "size: summary, 2000 entries",
        "100 entries",
        partial(cpu_to_first_paint, opened, title, long.environ),
        partial(cpu_to_first_paint, opened, title, short.environ),
    )
    few = shops.many_jobs(home / "few", 10)
    in_hand = shops.title_in_hand(few, shops.HOOK)

    def shop_of(place: shops.Place) -> float:
        shutil.rmtree(place.home / "cache", ignore_errors=True)
        return cpu_to_first_paint(coach_command(), in_hand, place.environ)

    yield f"size: shop, {MANY} jobs", "10 jobs", partial(shop_of, many), partial(shop_of, few)
    timer = [sys.executable, "-m", empty_app.__name__, empty_app.TIMER]
    yield (
        f"size: the bench left alone for {REST_S:.0f} s",
        "a timer of a second",
        partial(cpu_at_rest, opened, title, "\r", REST_S, short.environ),
        partial(cpu_at_rest, timer, empty_app.TEXT, "", REST_S, short.environ),
    )


def screens(home: Path, wanted: Callable[[str], bool]) -> Iterator[tuple[str, str, Measurement, Measurement]]:
    """The screens, each held against an empty application, to the first frame that shows the job.

    First without anything remembered, then opened again after they have once come to rest; last as they are
    first opened after a command has entered something, which is not measured.
    """
    adze = shops.adze_half_forged(home / "adze")
    hook = shops.hook_part_forged(home / "hook")
    nobodys = shops.Place(home / "nobody")
    title = shops.title_in_hand(adze, shops.ADZE)
    empty = partial(
        cpu_to_first_paint, [sys.executable, "-m", empty_app.__name__], empty_app.TEXT, adze.environ
    )

    def painted(
        name: str, place: shops.Place, argv: list[str], text: str
    ) -> tuple[str, str, Measurement, Measurement]:
        return name, _EMPTY, partial(cpu_to_first_paint, argv, text, place.environ), empty

    for name, place, argv, text in (
        ("bench, adze half forged", adze, shops.demonstration(adze), title),
        ("summary, adze half forged", adze, [*coach_command(), "open", shops.ADZE], title),
        (
            "summary, hook",
            hook,
            [*coach_command(), "open", shops.HOOK],
            shops.title_in_hand(hook, shops.HOOK),
        ),
        ("demo, in a new folder", nobodys, [*coach_command(), "demo"], title),
    ):
        yield painted(name, place, argv, text)
        if wanted(name):
            open_and_leave_alone(argv, text, place.environ)
        yield painted(f"{name}, again", place, argv, text)
    changed = adze.copy(home / "changed")
    for name, argv, log in (
        ("bench, first after an entry elsewhere", shops.demonstration(changed), shops.kept_log(changed)),
        ("summary, first after an entry elsewhere", [*coach_command(), "open", shops.ADZE], None),
    ):
        yield name, _EMPTY, partial(_entered_first, changed, argv, title, log), empty
    yield painted("shop, coach alone", adze, coach_command(), title)


def _entered_first(place: shops.Place, argv: list[str], text: str, log: Path | None) -> float:
    place.coach("note", shops.ADZE, "even it up", *(("--shop", str(log)) if log is not None else ()))
    return cpu_to_first_paint(argv, text, place.environ)


def answers(home: Path, _: Callable[[str], bool]) -> Iterator[tuple[str, str, Measurement, Measurement]]:
    """From Enter to the painted answer, held against an application with one Input."""
    adze = shops.adze_half_forged(home / "adze")
    title = shops.title_in_hand(adze, shops.ADZE)
    answer = shops.answer_to_the_size(adze, home / "spare")
    typing = [sys.executable, "-m", empty_app.__name__, empty_app.TYPING]
    said = empty_app.answer_to(shops.TYPED)

    def read() -> float:
        anew = adze.copy(home / "anew")
        return cpu_to_answer(shops.demonstration(anew), title, shops.TYPED, answer, anew.environ)

    def to_the_bench() -> float:
        shutil.rmtree(adze.home / "cache", ignore_errors=True)  # else a frame that is remembered rests before
        return cpu_to_answer([*coach_command(), "open", shops.ADZE], title, "", _ON_THE_BENCH, adze.environ)

    empty = partial(cpu_to_answer, typing, empty_app.TEXT, shops.TYPED, said, adze.environ)
    yield "Enter to the answer, adze", _TYPING, read, empty
    yield "Enter on the summary to the bench, adze", _TYPING, to_the_bench, empty


def main() -> int:
    """Measure and print; 0 when everything was measured."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument("--rounds", type=int, default=9, help="rounds of each measurement (default 9)")
    parser.add_argument("--only", nargs="+", default=[], metavar="WORD", help="those with one of these words")
    asked = parser.parse_args()
    compileall.compile_dir(Path(coach.__file__).parent, quiet=2)
    print(
        f"Python {platform.python_version()} on {platform.system()}, code compiled beforehand; "
        f"processor time, {asked.rounds} rounds in turn, medians of the rounds and of their ratios"
    )

    def wanted(name: str) -> bool:
        return not asked.only or any(word in name for word in asked.only)

    for family in (commands, screens, answers, sizes):
        with tempfile.TemporaryDirectory() as home:
            for name, beside, measured, floor in family(Path(home), wanted):
                if wanted(name):
                    print(compare(name, measured, beside, floor, asked.rounds).line(), flush=True)
    if wanted("recompute"):
        for line in recompute.report(long_job.prepare, asked.rounds):
            print(line, flush=True)
    if wanted("long day"):
        for line in long_day.report():
            print(line, flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
