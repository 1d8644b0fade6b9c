"""A round hole has one size, which goes by one name wherever it is told; it may be typed by the other."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from coach.bench.session import Session
from coach.screens.named_sizes import named
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.screens.stage import a_job, a_shop

HASP = Path(__file__).parents[1] / "recipes" / "small" / "riveted-hasp.yaml"


@pytest.fixture
def punched(tmp_path: Path) -> Iterator[Session]:
    """A job in the step that punches a round hole, where the recipe asks for its width."""
    text = HASP.read_text(encoding="utf-8").replace("check: hole length, length", "check: hole width, length")
    with a_shop(tmp_path) as shop:
        job = a_job(shop, text)
        job.done()
        yield job


def test_the_bench_calls_it_as_the_plan_and_the_sheet_do(punched: Session) -> None:
    told = [check.label for check in punched.standing().checks if "hole" in check.label]
    assert told == [size.label for size in punched.standing().sizes if size.label == "strap hole length"]
    assert told == [size.label for size in punched.sheet().sizes if size.label == "strap hole length"]


@pytest.mark.parametrize("name", ["strap.hole_width", "strap.hole_length"])
def test_it_is_read_by_either_name(punched: Session, name: str) -> None:
    punched.heat()
    wanted = next(check for check in punched.standing().checks if "hole" in check.label).wanted
    assert wanted is not None
    punched.read(name, f"{wanted.limits.nominal:g}")
    hole = next(check for check in punched.standing().checks if "hole" in check.label)
    assert hole.label == "strap hole length"
    assert hole.reading is not None


@pytest.mark.parametrize("typed", ["hole width=6", "strap hole width=6", "hole length=6", "h 6"])
def test_it_is_typed_by_either_name(punched: Session, typed: str) -> None:
    one = named(typed, punched.standing().checks, ())
    assert one is not None
    punched.heat()
    punched.read(one.name, one.typed)
    hole = next(check for check in punched.standing().checks if "hole" in check.label)
    assert hole.reading is not None
    assert hole.reading.typed == "6"


@pytest.mark.parametrize(("name", "says"), [("strap.hole_width", True), ("strap.hole_length", False)])
def test_what_was_typed_by_the_other_name_is_said_to_be_one_with_it(
    punched: Session, name: str, says: bool
) -> None:
    punched.heat()
    wanted = next(check for check in punched.standing().checks if "hole" in check.label).wanted
    assert wanted is not None
    told = answer_text(punched.read(name, f"{wanted.limits.nominal:g}"), Shown("mm"))
    assert ("its hole width and its hole length are one size" in told) == says
