"""A length that no work of its step can leave stays in question, whatever is read of its width."""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from tests.bench.jobs import at_step_of


def _check(job: Session, name: str) -> Check:
    return next(one for one in job.standing().checks if one.name == name)


# The blank of the ladle lies on some 90 mm of bar 50 x 6, and is spread to 97 by 2.5: nothing in that makes
# it shorter than the bar that it is made of. The volume, by hand: 50 · 6 · 90.3 = 27090 mm³.
@pytest.mark.parametrize(
    ("length", "width"),
    [
        ("80.3", "121.2"),  # 121.2 · 2.5 · 80.3 = 24331 mm³: a tenth of the metal would be gone
        ("50", "113"),  # 113 · 2.5 · 50 = 14125 mm³: half of it would be
        ("70", "118"),
    ],
)
@pytest.mark.parametrize("order", ["length first", "width first", "length between"])
@pytest.mark.parametrize("heats", [0, 6])
def test_a_width_that_is_read_twice_does_not_make_a_length_shorter_than_its_bar_count(
    length: str, width: str, order: str, heats: int
) -> None:
    job = at_step_of("ladle-and-hanger", 2)
    for _ in range(heats):
        job.heat()
    readings = {
        "length first": [("bowl.length", length), ("bowl.width", width), ("bowl.width", width)],
        "width first": [("bowl.width", width), ("bowl.width", width), ("bowl.length", length)],
        "length between": [("bowl.width", width), ("bowl.length", length), ("bowl.width", width)],
    }
    for name, typed in readings[order]:
        job.read(name, typed)
    assert not _check(job, "bowl.width").is_questioned  # it was read twice: it decides about itself
    assert _check(job, "bowl.length").is_questioned
    read = _check(job, "bowl.length").reading
    assert read is not None
    assert read.least_possible is not None
    assert read.least_possible.value == pytest.approx(90.3, abs=1.0)
    # Nothing is made of it either: its metal is there.
    assert all(size.zone != "bowl" or not size.measured for size in job.standing().sizes)


def test_the_same_length_read_twice_still_counts() -> None:
    job = at_step_of("ladle-and-hanger", 2)
    for typed in ("80.3", "80.3"):
        job.read("bowl.length", typed)
    assert not _check(job, "bowl.length").is_questioned
