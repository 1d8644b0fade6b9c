"""The benchmarks measure what they say they measure; how long it takes is not judged here."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable

import pytest

from tests.benchmarks import empty_app
from tests.benchmarks.processes import NothingPainted, cpu_to_answer, cpu_to_end, cpu_to_first_paint
from tests.benchmarks.recompute import LONG_JOB_STEPS, SHORT_JOB_STEPS, cost_of_a_step
from tests.benchmarks.timing import compare


def test_two_measurements_are_taken_in_turn_and_the_first_of_each_is_thrown_away() -> None:
    taken: list[str] = []
    first, second = iter([100.0, 2.0, 4.0, 9.0]), iter([100.0, 1.0, 2.0, 50.0])

    def coach() -> float:
        taken.append("coach")
        return next(first)

    def floor() -> float:
        taken.append("floor")
        return next(second)

    result = compare("coach", coach, "floor", floor, rounds=3)
    assert taken == ["coach", "floor"] * 4
    # The rounds' own ratios are 2, 2 and 0.18.
    assert (result.median_s, result.beside_median_s, result.ratio) == (4.0, 2.0, 2.0)


def test_a_command_that_fails_is_not_timed() -> None:
    with pytest.raises(subprocess.CalledProcessError):
        cpu_to_end([sys.executable, "-c", "raise SystemExit(3)"])


def test_an_empty_application_paints_its_line() -> None:
    argv = [sys.executable, "-m", empty_app.__name__]
    assert cpu_to_first_paint(argv, empty_app.TEXT) > 0


def test_colour_within_a_line_does_not_hide_its_text() -> None:
    painted = r"print('\x1b]0;title\x07\x1b[1;31mNext\x1b[0m: \x1b[38;2;1;2;3mdraw')"
    assert cpu_to_first_paint([sys.executable, "-c", painted], "Next: draw") > 0


def test_a_command_that_ends_without_the_text_is_told_apart() -> None:
    with pytest.raises(NothingPainted, match=r"'Next' was never shown(?s:.*)other words"):
        cpu_to_first_paint([sys.executable, "-c", "print('other words')"], "Next")


def test_an_answer_is_timed_from_enter_and_not_taken_for_its_own_echo() -> None:
    # The line typed holds the answer's words, so the answer is looked for in what is painted after Enter.
    argv = [sys.executable, "-m", empty_app.__name__, empty_app.TYPING]
    assert cpu_to_answer(argv, empty_app.TEXT, "52.3", empty_app.answer_to("52.3")) > 0


def test_both_lengths_of_job_are_made_ready_once() -> None:
    made: list[int] = []

    def prepare(steps: int) -> Callable[[], int]:
        made.append(steps)
        return lambda: sum(range(steps))

    assert cost_of_a_step(prepare, rounds=2).ratio > 0
    assert sorted(made) == [SHORT_JOB_STEPS, LONG_JOB_STEPS]
