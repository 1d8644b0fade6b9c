"""Of several pieces one is made no more: burnt through, or the smith makes only three.

First hook by hand: of a bar of 10 x 10 mm a hook takes 30.6 + 72.3 + 36.6 = 139.5 mm, so four take 558 mm
and leave 142 mm of 700; three take 418.5 mm and leave 281.5 mm.
"""

from __future__ import annotations

from datetime import datetime

import pytest

from coach.bench.losing import LossAsked
from coach.bench.off_bar import left_of_bars
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.cli.page import set_page
from coach.drafting.make import made_often
from coach.log.carry import export_job, import_job
from coach.places import bundled_recipes
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words
from coach.recipe.reader import read_recipe
from coach.telling.file_amended import change_section
from coach.telling.glance import glance
from coach.telling.page import Line
from coach.telling.sheet import sheet_page
from coach.telling.standing import standing_page
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun, ticking

MM = Shown("mm")


def hooks(count: int = 4, steps: int = 0) -> Session:
    """So many hooks of a bar 700 mm long, with so many steps done."""
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    assert "bar: square 10 " in text
    job = begun(made_often(text.replace("bar: square 10 ", "bar: square 10, long 700 "), count))
    for _ in range(steps):
        job.done()
    return job


def left_mm(job: Session) -> float:
    return left_of_bars(job._state)["hook 1"]


def ahead(job: Session) -> list[str]:
    return [step.title for step in job.recipe.steps[len(job._state.records) :]]


def in_hand(job: Session) -> str:
    step = job.standing().step
    return "" if step is None else step.title


@pytest.mark.parametrize("marked", [0, 4])
def test_of_a_piece_that_was_not_begun_all_of_its_bar_stays(marked: int) -> None:
    job = hooks(steps=marked)
    assert left_mm(job) == pytest.approx(700.0 - 4 * 139.55, abs=0.5)
    job.change("give up hook 4")
    assert not any("hook 4" in title for title in ahead(job))
    assert left_mm(job) == pytest.approx(700.0 - 3 * 139.55, abs=0.5)
    told = job.standing()
    assert told.given_up == ("hook 4",)
    assert not any(size.zone.startswith("hook 4") for size in told.sizes)
    assert told.verdict == "on plan"


def burnt_in_its_first_heat() -> Session:
    """Hook 1 is cut off, hook 2's tip burns in its first heat; four are marked out in a row."""
    job = hooks(steps=9)
    job.heat()
    return job


def test_a_burnt_piece_is_cut_off_at_its_mark_and_the_next_begins_there() -> None:
    job = burnt_in_its_first_heat()
    before = job.plan.pieces["hook 3"].marks
    did = job.change("give up hook 2").did
    assert isinstance(did, Words)
    assert "ended as it is; hook 2 given up" in write(did, MM)
    assert ahead(job)[:2] == ["Cut the plate from the bar: hook 2", "Draw out the tip: hook 3"]
    assert sum("hook 2" in title for title in ahead(job)) == 1
    job.heat()
    job.done()
    now = job._state.start
    assert now is not None
    lengths = [now.form(f"hook 3 {zone}").length_mm for zone in ("tip", "shank", "plate")]
    ends = [mark.at.value for mark in before]
    begins = job._first_plan.pieces["hook 3"].begins
    assert begins is not None
    assert sum(lengths) == pytest.approx(ends[-1] - begins.value, abs=0.5)
    assert left_mm(job) == pytest.approx(700.0 - 4 * 139.55, abs=0.5)  # its metal is off the bar


def test_nothing_waits_for_it_and_the_job_ends_on_plan() -> None:
    job = burnt_in_its_first_heat()
    job.change("give up hook 2")
    while job.standing().step is not None:
        job.done()
    standing, sheet = job.standing(), job.sheet()
    assert standing.state == "finished"
    assert not any(size.zone.startswith("hook 2") for size in standing.sizes)
    assert not any(size.zone.startswith("hook 2") for size in sheet.sizes)
    told = "\n".join(set_page(sheet_page(sheet, MM)))
    assert "Given up" in told
    assert "hook 2" in told
    # By hand: 13955 mm³ of bar by 7.85 g/cm³ are 109.5 g; one heat's scale takes a gram or two.
    assert sheet.metal is not None
    assert sheet.metal.aside.value == pytest.approx(109.5, abs=3.0)


def test_what_is_left_of_it_has_one_mass_and_its_heats_stay_planned() -> None:
    """By hand: 5 g burn off hook 1, of 109.5 g of bar; its eight heats scale and its cut leave 98 to 105 g.

    Before the second hook is in hand, 3 + 2 + 1 + 1 + 1 = 8 heats were planned, and 3 more for its taper.
    """
    job = hooks(steps=9)
    before = job.sheet().heats
    assert (before.taken, before.planned_so_far) == (8, 11)
    job.lose(LossAsked("hook 1 tip", "5 g"))
    did = job.change("give up hook 1").did
    sheet = job.sheet()
    assert (sheet.heats.taken, sheet.heats.planned_so_far) == (8, 11)
    assert [one.heats_planned for one in sheet.heats.steps] == [one.heats_planned for one in before.steps]
    assert sheet.metal is not None
    assert 96.0 < sheet.metal.given_up.value < 105.0
    assert isinstance(did, Words)
    assert f"about {sheet.metal.given_up.value:.0f} g of it is left" in write(did, MM)
    told = write(job.next_time().costs[0].told, MM)
    assert "given up" in told
    assert "anew" not in told


def test_the_last_piece_in_hand_ends_the_job_with_the_others_made() -> None:
    job = hooks(2)
    while in_hand(job) != "Look it over: hook 2":
        job.done()
    job.change("give up hook 2")
    assert job.standing().state == "finished"


def test_where_the_job_stands_and_the_shop_tell_it() -> None:
    job = hooks(steps=9)
    job.change("give up hook 2")
    assert "Given up  hook 2" in "\n".join(set_page(standing_page(job.standing(), MM)))
    assert glance(job.standing(), (), MM).still_open == "hook 2 given up"


def test_it_is_struck_out_again() -> None:
    job = burnt_in_its_first_heat()
    steps = len(job.recipe.steps)
    job.change("give up hook 2")
    job.strike()
    assert job.standing().given_up == ()
    assert len(job.recipe.steps) == steps
    job.strike()  # the end of the step in hand, which it brought
    assert in_hand(job) == "Draw out the tip: hook 2"
    assert job.standing().heats == 1


def test_it_is_carried_to_another_shop_as_it_was() -> None:
    job = burnt_in_its_first_heat()
    job.change("give up hook 2")
    elsewhere = Shop(":memory:", ticking(datetime.fromisoformat(job.history()[-1].at)))
    there = elsewhere.open(import_job(elsewhere.log, export_job(job._log, job.job)))
    assert there.standing().given_up == ("hook 2",)
    assert ahead(there) == ahead(job)


def test_it_is_shown_before_it_is_entered() -> None:
    job = burnt_in_its_first_heat()
    last = job.standing().last_entry
    told = job.change_told("give up hook 2")
    assert job.standing().last_entry == last
    gone = [one.title for one in told.changes.ahead if one.what == "gone"]
    assert len(gone) == 6  # by hand: shank, curl, bend, spread, punch, look it over; the cut stays
    assert told.marks == ()


def test_what_is_changed_after_it_is_changed_of_the_others() -> None:
    job = burnt_in_its_first_heat()
    job.change("give up hook 2")
    job.change("hook 3 plate.length = 42 ±4")
    job.change("give up hook 4")
    assert job.standing().given_up == ("hook 2", "hook 4")
    assert job.standing().verdict == "on plan"


def test_the_file_that_still_makes_it_is_not_followed_in_silence() -> None:
    job = burnt_in_its_first_heat()
    text = job.forged()
    job.change("give up hook 2")
    with pytest.raises(Refusal) as refused:
        job.file_changes(text.replace("long 110 ±10", "long 112 ±10"), "first-hook.yaml")
    assert "hook 2 is given up in this job" in write(refused.value.words, MM)


def test_the_recipe_that_was_forged_makes_the_others_alone() -> None:
    job = hooks(3, steps=3)
    job.change("give up hook 1")
    read = read_recipe(job.forged(), "forged.yaml")
    assert [*read.pieces] == ["hook 2", "hook 3"]
    assert read.pieces["hook 3"].row == read.pieces["hook 2"].row
    assert not any("hook 1" in zone for step in read.steps for zone in step.zones)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("give up hook 9", "There is no piece"),
        ("give up hook 4", "is given up already"),
    ],
)
def test_what_cannot_be_is_said(line: str, why: str) -> None:
    job = hooks()
    job.change("give up hook 4")
    with pytest.raises(Refusal) as refused:
        job.change(line)
    assert why in write(refused.value.words, MM)


def test_the_last_that_is_left_is_not_given_up() -> None:
    job = hooks(2)
    job.change("give up hook 1")
    with pytest.raises(Refusal) as refused:
        job.change("give up hook 2")
    assert "nothing is made" in write(refused.value.words, MM)


def test_one_that_goes_together_with_others_is_not_given_up() -> None:
    job = begun((bundled_recipes() / "bolt-tongs.yaml").read_text(encoding="utf-8"))
    with pytest.raises(Refusal) as refused:
        job.change("give up arm 2")
    assert "goes together with" in write(refused.value.words, MM)
    assert job.may_be_given_up == ()


def test_a_drawing_changed_in_all_pieces_leaves_out_the_one_that_was_given_up() -> None:
    job = hooks(3, 3)
    job.change("give up hook 2")
    sizes = job.change_told("plate.length = 40 ±4").changes.sizes
    assert [one.zone for one in sizes] == ["hook 1 plate", "hook 3 plate"]
    with pytest.raises(Refusal, match="hook 2 was given up: nothing of the drawing is asked of it"):
        job.change_told("hook 2 plate.length = 40 ±4")


def test_a_size_that_is_asked_no_more_is_told_so_and_leaves_no_blank() -> None:
    told = change_section(hooks(3, 3).change_told("give up hook 2"), MM)
    spares = [line.words for line in told.body if isinstance(line, Line) and line.label == "Spare"]
    gone = [text for text in spares if text.startswith("hook 2")]
    assert gone
    assert all(" asked no more, was " in text for text in gone)
