"""A hardness too low for what was read before it, of steel that a file skated over, is questioned."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.test_contradicting_readings import at


def hardened(file_test: str) -> Session:
    """As the temper begins, after a file test of the quench."""
    session = at("harden")
    session.read("edge.file test", file_test)
    session.done()
    return session


# A file skates from about 60 HRC (from memory). Thin, C80 has about 61 HRC after 204 °C, and more after less:
# 1 or 2 under 1095, give or take 2, which has 62.5 (facts E2). 50 HRC is beyond that, 56 among its doubts.
@pytest.mark.parametrize(("at_c", "hrc", "is_questioned"), [
    (150, "50", True),
    (150, "56", False),
    (205, "48", True),
    (278, "50", False),
    (340, "44", False),
])  # fmt: skip
@pytest.mark.parametrize("heat_first", [True, False])
def test_it_is_too_soft_for_the_temper_that_was_read(
    at_c: int, hrc: str, is_questioned: bool, heat_first: bool
) -> None:
    session = hardened("pass")
    first, second = ("temperature", f"{at_c} °C"), ("hardness", hrc)
    if not heat_first:
        first, second = second, first
    session.read(f"edge.{first[0]}", first[1])
    answer = answer_text(session.read(f"edge.{second[0]}", second[1]), Shown())
    assert ("a file skated" in answer) is is_questioned
    assert [one.dimension for one in session.standing().questioned] == [second[0]] * is_questioned
    if is_questioned:
        session.read(f"edge.{second[0]}", second[1])
        assert session.standing().questioned == ()


@pytest.mark.parametrize("file_test", ["fail", "doubt"])
def test_steel_that_no_file_skated_over_may_be_that_soft(file_test: str) -> None:
    session = hardened(file_test)
    session.read("edge.temperature", "150 °C")
    session.read("edge.hardness", "50")
    assert session.standing().questioned == ()


def test_a_hotter_run_before_the_reading_makes_it_soft() -> None:
    session = hardened("pass")
    session.read("edge.temperature", "400 °C")
    session.read("edge.temperature", "150 °C")
    session.read("edge.hardness", "42")
    assert session.standing().questioned == ()
