"""At the mark-out the bar that lies there is told, and marks, cuts and heats are those of that bar.

By hand: a mark along a bar of another section lies where the same volume ends. The hatchet's 36 x 25 is 900
mm², 42 x 24 is 1008 mm²: a mark at 65.2 mm lies at 65.2 x 900 / 1008 = 58.2 mm on it.
"""

from __future__ import annotations

import re

import pytest

from coach.bench.session import Session
from coach.drafting.bar_there import asked_of_bar, bar_line, bar_still_open, change, change_told
from coach.drafting.make import made_often
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.quantities.refusal import Refusal
from coach.telling.why import reason_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun, shop
from tests.worlds.study import forged
from tests.worlds.tools import TOOLS
from tests.worlds.worlds import World

GATE_HOOK = """
recipe: Gate hook
pieces:
  hook:
    metal: mild steel
    bar: round 12, long 1500
    zones:
      tip: round 12 ±0.8 to 5 ±1, long 70 ±8
      shank: square 10 ±0.8, long 90 ±9
      pad: 18 ±2 x 5 ±0.8, round hole 7 ±0.6 through its thickness, long 44 ±5, takes up wide then long
usual: {at: light yellow, margin: enough for 95 %}
steps:
  - mark out: hook
  - taper: tip, 2 heats
  - draw: shank, square 10 ±0.8, 2 heats
    check: side, length
  - bend: tip, radius 15 ±4, 1 heat
  - cut: pad, 1 heat
    check: length
  - spread: pad, flat, thick 5 ±0.8, long 44 ±5, 2 heats
    check: thickness, length, width
  - punch: pad, 1 heat, slug 3
    check: hole width
""".lstrip()

OTHER = "bar body = 42 x 24, long 310"


def mark_mm(job: Session, name: str) -> float:
    wanted = next(one.wanted for one in job.standing().checks if one.name == f"{name}.mark")
    assert wanted is not None
    return wanted.limits.nominal


def test_every_mark_lies_where_the_same_metal_ends() -> None:
    job = at_step_of("hedging-hatchet", 1)
    before = mark_mm(job, "eye")
    told = change_told(job, OTHER)
    assert {one.zone for one in told.marks} == {"poll", "eye", "blade", "bit"}
    assert job.history()[-1].number == 1  # shown before it is taken
    change(job, OTHER)
    assert mark_mm(job, "eye") == pytest.approx(before * 900.0 / 1008.0, abs=0.4)
    assert job.standing().verdict is PlanState.ON_PLAN
    metal = job.sheet().metal
    assert metal is not None
    assert [one.value for one in metal.pieces[0].stock.sizes] == [42.0, 24.0]


def test_it_is_struck_out_again() -> None:
    job = at_step_of("hedging-hatchet", 1)
    before = mark_mm(job, "eye")
    change(job, OTHER)
    job.strike()
    assert mark_mm(job, "eye") == before


def test_a_mark_made_on_the_other_bar_says_nothing_of_this_one() -> None:
    job = at_step_of("hedging-hatchet", 1)
    job.read("eye.mark", "66")
    change(job, OTHER)
    assert mark_mm(job, "eye") < 60.0
    assert not job.standing().to_right


def test_an_offcut_goes_by_its_weight_and_what_it_cannot_make_is_told() -> None:
    """Of 20 x 20 with 7.85 g/cm³ (from memory) 800 g are 800 / (7.85e-3 x 400) = 254.8 mm."""
    job = at_step_of("hedging-hatchet", 1)
    told = change_told(job, "bar 20 x 20, 800 g, C45")
    assert told.after.verdict is PlanState.OFF_PLAN
    assert "255 mm" in reason_text(told.after.reason, Shown("mm"))


def test_a_bar_whose_section_cannot_make_a_zone_says_which() -> None:
    job = at_step_of("hedging-hatchet", 1)
    with pytest.raises(Refusal, match="From that bar it cannot be: Step 3, Punch the eye"):
        change(job, "bar 30 x 6, long 310")


def test_once_the_marks_are_made_it_is_too_late() -> None:
    job = at_step_of("hedging-hatchet", 2)
    assert not bar_line(job)
    with pytest.raises(Refusal, match="while the job is marked out"):
        change(job, OTHER)


def test_the_recipe_that_was_forged_is_from_that_bar() -> None:
    job = at_step_of("hedging-hatchet", 1)
    change(job, OTHER)
    again = shop().begin(job.forged(), "forged.yaml")
    assert again.plan.pieces["body"].stock.sizes[0].value == 42.0


def test_the_mark_out_asks_until_anything_is_entered() -> None:
    job = at_step_of("hedging-hatchet", 1)
    assert asked_of_bar(job).startswith("Does this bar lie there: 36 x 25, long 500?")
    job.read("eye.mark", "65.2")
    assert not asked_of_bar(job)


def test_it_asks_too_where_the_job_begins_with_what_the_shop_knows() -> None:
    at = shop()
    for number in range(2):
        forged(TOOLS[2], number, World(hunger=3.0, takes=1.0, weighs=True), 5, at)
    hook = at.begin((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"), "first-hook.yaml")
    assert hook.begun_with
    assert asked_of_bar(hook).startswith("Does this bar lie there: square 10")


def test_of_several_pieces_the_bar_that_all_of_them_need_is_asked_for() -> None:
    # Four of 139.5 mm each, one behind the other: 558.2 mm.
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    hooks = shop().begin(made_often(text, 4), "hooks.yaml")
    assert asked_of_bar(hooks).startswith("Does this bar lie there: square 10, long 559?")


def test_a_bar_too_short_for_its_batch_says_what_is_missing_and_how_many_it_makes() -> None:
    """Six gate hooks by hand, 155.5 mm of round 12 each: 155.5 x (12 / 11.6)² = 166.4 mm of 11.6.

    Six take 998.5 mm, so 960 mm lack 38.5 (39.5 with the scale of the thinner bar); five take 832 mm.
    """
    job = begun(made_often(GATE_HOOK, 6))
    for told in (change_told, change):
        with pytest.raises(Refusal) as refused:
            told(job, "bar round 11.6, long 960")
        text = write(refused.value.words, Shown("mm"))
        missing = re.search(
            r"needs ([\d.]+) mm, so ([\d.]+) mm is missing.*for 5 of them, (\d+) mm of it", text
        )
        assert missing is not None, text
        assert [float(one) for one in missing.groups()] == pytest.approx([998.5, 38.5, 832.0], abs=1.5)
        assert text.endswith("of it.")
        assert ".." not in text
        assert "file" not in text
        assert "eyed" not in text


def test_a_recipe_that_begins_with_the_saw_takes_another_bar_until_that_is_done() -> None:
    """A link of round 9.8 for one of 10 has 9.8² / 10² = 0.96 of its metal for each millimetre."""
    job = at_step_of("ring-and-chain", 1)
    change(job, "bar link = round 9.8, long 900")
    assert {job.plan.pieces[f"link {number}"].stock.sizes[0].value for number in (1, 2, 3)} == {9.8}
    job.done()
    with pytest.raises(Refusal, match="the link 1 is past that"):
        change(job, "bar link = round 10, long 900")


def test_a_piece_that_nothing_was_done_of_takes_another_bar_whatever_was_done_of_the_others() -> None:
    job = at_step_of("ring-and-chain", 3)
    change(job, "bar ring = round 12.4, long 300")
    assert job.plan.pieces["ring"].stock.sizes[0].value == 12.4
    assert job.plan.pieces["link 1"].stock.sizes[0].value == 10.0


@pytest.mark.parametrize("line", ["bar ring round 12.4, long 300", "bar Ring: round 12.4, long 300"])
def test_the_bar_of_a_piece_that_is_not_begun_is_told_behind_its_name_alone(line: str) -> None:
    job = at_step_of("ring-and-chain", 3)
    change(job, line)
    assert job.plan.pieces["ring"].stock.sizes[0].value == 12.4


def test_behind_the_name_of_several_made_alike_it_is_the_bar_of_them_all() -> None:
    job = at_step_of("ring-and-chain", 1)
    change(job, "bar link round 9.8, long 900")
    assert {job.plan.pieces[f"link {number}"].stock.sizes[0].value for number in (1, 2, 3)} == {9.8}


def test_once_the_first_piece_is_begun_the_line_of_the_next_bar_is_shown_and_can_be_taken() -> None:
    job = at_step_of("hedging-hatchet", 2)
    line = bar_still_open(job)
    assert line == "bar edge = 50 x 8, long 250"
    change(job, line.replace("250", "240"))
    assert bar_still_open(job) == "bar edge = 50 x 8, long 240"
    assert not bar_still_open(at_step_of("hedging-hatchet", 99))
