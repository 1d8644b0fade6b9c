"""A weld that is open is welded again before anything else is done (common practice, no source)."""

from __future__ import annotations

from coach.places import bundled_recipes
from tests.bench.jobs import begun


def test_an_open_link_is_welded_again_before_another_is_cut() -> None:
    job = begun((bundled_recipes() / "ring-and-chain.yaml").read_text(encoding="utf-8"))
    while (step := job.standing().step) is not None and step.operation != "weld shut":
        job.done()
    for _ in range(2):
        job.heat()
    job.read("link 1.weld_line", "fail")
    names = [way.name for way in job.ways_back()]
    assert names[0] == "do-again-weld-shut-link-1"
    assert names.index("cut-another-link-1") > 0
