"""What is entered later is told by the hour that it was taken at, wherever a time stands."""

from __future__ import annotations

from tests.bench.jobs import at_step_of


def test_a_reading_and_what_it_leaves_to_put_right_have_the_hour_that_was_said() -> None:
    job = at_step_of("cold-chisel", 2)
    job.heat()
    last = job.history()[-1].at  # some minutes go by until it is told of
    job.read("edge.end_thickness", "5", then=job.then(at=last[:16].replace("T", " ")))
    job.read("edge.crack_test", "fail", then=job.then(at=last[:16].replace("T", " ")))
    standing = job.standing()
    check = next(one for one in standing.checks if one.name == "edge.end_thickness")
    assert check.reading is not None
    assert check.reading.at[:16] == last[:16]
    (crack,) = standing.to_right
    assert crack.at[:16] == last[:16]
