"""What is entered once every step is done is of no step."""

from __future__ import annotations

from coach.places import bundled_recipes
from tests.bench.jobs import begun


def test_a_note_at_the_end_is_of_no_step() -> None:
    job = begun((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"))
    steps = 0
    while job.standing().step is not None:
        job.done()
        steps += 1
    job.note("it hangs straight")
    *before, note = job.history()
    assert note.step == 0
    assert max(one.step for one in before) == steps
