"""A zone split at the bench: its branches are read, judged and taken back, and it is asked no more."""

from __future__ import annotations

import json

import pytest

from coach.bench.checks import Check
from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.ledger.verdict import PlanState, Reason
from coach.ledger.zone_forecast import FinishedSize
from coach.places import bundled_recipes
from coach.quantities import Words
from coach.recipe.freezing import frozen, thawed
from coach.recipe.reader import read_recipe
from coach.telling.reading import reading_sentence
from coach.telling.ways_back import no_way_back
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop
from tests.recipes.walking import forge_up_to

FORK = (bundled_recipes() / "meat-fork.yaml").read_text(encoding="utf-8")


def job_at(step: int, text: str = FORK) -> Session:
    session = shop().begin(text, "meat-fork.yaml")
    forge_up_to(session, step)
    return session


def row(told: Standing, name: str) -> FinishedSize:
    return next(size for size in told.sizes if size.name == name)


def expected(session: Session, name: str) -> float:
    check = next(one for one in session.standing().checks if one.name == name)
    assert check.expected is not None
    return check.expected.value


def test_before_the_split_the_whole_is_there_and_after_it_its_branches_are() -> None:
    session = job_at(2)
    assert set(session.forms_now()) == {"end", "stem", "tail"}
    assert set(session.forms_wanted()) == {"tine", "hook", "stem", "tail"}
    session.heat()
    assert set(session.forms_now()) == {"tine", "hook", "stem", "tail"}
    assert [one.name for one in session.standing().checks] == ["tine.width", "hook.width"]


def test_no_size_of_a_branch_is_read_before_the_split_and_none_of_the_whole_after_it() -> None:
    session = job_at(1)
    with pytest.raises(EntryFault) as refused:
        session.read("tine.width", "12")
    assert write(refused.value.words) == "The tine is part of the end until that is split; measure the end."
    session = job_at(3)
    with pytest.raises(EntryFault) as refused:
        session.read("end.width", "20")
    assert write(refused.value.words) == "The end was split into tine and hook; measure the tine."
    assert not any(size.zone == "end" for size in session.standing().sizes)


@pytest.mark.parametrize("step", [1, 3])
def test_what_is_split_is_no_size_that_the_tool_can_come_to(step: int) -> None:
    sheet = job_at(step).sheet()
    assert {size.zone for size in sheet.sizes} == {"tine", "hook", "stem", "tail"}


def test_what_a_crooked_cut_gives_one_branch_the_other_has_less() -> None:
    session = job_at(2)
    for _ in range(2):
        session.heat()
    tine, hook = expected(session, "tine.width"), expected(session, "hook.width")
    assert (tine, hook) == pytest.approx((12, 8), abs=0.15)
    before = {
        size.zone: size.expected.value for size in session.standing().sizes if size.dimension == "length"
    }
    session.read("tine.width", "13")
    assert expected(session, "hook.width") == pytest.approx(hook - (13 - tine), abs=0.15)
    after = {
        size.zone: size.expected.value for size in session.standing().sizes if size.dimension == "length"
    }
    # One twelfth more of the tine's metal makes it longer, one eighth less of the hook's makes that shorter.
    assert after["tine"] / before["tine"] == pytest.approx(13 / 12, abs=0.02)
    assert after["hook"] / before["hook"] == pytest.approx(7 / 8, abs=0.02)
    assert after["stem"] == pytest.approx(before["stem"], rel=0.01)


def test_a_branch_with_too_little_metal_is_told_and_has_its_ways_back() -> None:
    session = job_at(2)
    for _ in range(2):
        session.heat()
    session.read("tine.width", "15")
    session.read("hook.width", "4.9")
    told = session.standing()
    assert told.verdict is PlanState.OFF_PLAN
    assert isinstance(told.reason, Reason)
    assert told.reason.zone == "hook"
    ways = {one.name for one in session.ways_back()}
    assert any("hook" in name for name in ways), ways
    assert not any(name.startswith(("mark-longer", "move-metal")) for name in ways)


def test_a_branch_that_is_short_before_the_split_has_what_it_is_split_from_marked_longer() -> None:
    session = shop().begin(
        FORK.replace("long 130 ±35", "long 130 +40 -4").replace("170 ±35", "170 +60 -30"), "meat-fork.yaml"
    )
    way = next(one for one in session.ways_back() if one.name.startswith("mark-longer"))
    assert "end" in write(way.title)
    chance = session.standing().chance
    session.take(way.name)
    assert session.standing().chance > chance


def test_going_back_and_striking_out_makes_it_whole_again() -> None:
    session = job_at(3)
    assert "tine" in session.forms_now()
    session.back()
    step = session.standing().step
    assert step is not None
    assert step.number == 2
    session = job_at(2)
    session.heat()
    assert "end" not in session.forms_now()
    session.strike()
    assert "end" in session.forms_now()


def test_the_weight_of_the_piece_is_that_of_all_its_branches() -> None:
    session = job_at(13)
    volumes = {zone: form.volume_mm3() for zone, form in session.forms_now().items()}
    assert set(volumes) == {"tine", "hook", "stem", "tail"}
    grams = sum(volumes.values()) * 7.85e-3  # mild steel: 7.85 g/cm³
    told = session.read("fork.mass", f"{grams:.0f} g").did
    assert isinstance(told, Check)
    assert not told.is_questioned
    light = session.read("fork.mass", f"{0.7 * grams:.0f} g").did
    assert isinstance(light, Check)
    assert light.is_questioned


def test_a_recipe_with_branches_is_kept_and_opened_as_it_was() -> None:
    recipe = read_recipe(FORK, "meat-fork.yaml")
    kept = json.loads(json.dumps(frozen(recipe)))
    assert thawed(kept, recipe.text, recipe.source) == recipe


def test_a_half_forged_job_is_written_out_as_a_recipe_and_read_again() -> None:
    session = job_at(5)
    text = session.forged()
    assert "splits into tine 60 % and hook 40 %" in text
    assert read_recipe(text, "again.yaml").pieces["fork"].branches == session.recipe.pieces["fork"].branches


@pytest.mark.parametrize(
    ("step", "name", "size", "given_to"),
    [(9, "stem.length", "330", ["give-to-the-neighbour-stem-tail"]), (5, "tine.length", "260", [])],
)
def test_what_is_too_long_is_given_to_no_zone_that_was_split_nor_from_branch_to_branch(
    step: int, name: str, size: str, given_to: list[str]
) -> None:
    session = job_at(step)
    session.read(name, size, insist=True)
    offered = [way.name for way in session.ways_back()]
    assert offered
    given = [way for way in offered if way.startswith("give-to-the-neighbour")]
    assert given == given_to


def told_of(session: Session, name: str, size: str, *, insist: bool = False) -> str:
    check = session.read(name, size, insist=insist).did
    assert isinstance(check, Check)
    return reading_sentence(check, Shown("mm"))


@pytest.mark.parametrize(
    ("wide", "why", "insist"),
    [
        # No slit makes it so: twice alike it counts for nothing beside a width that can be.
        ("79", "the end it is cut from is only 20 mm wide", True),
        ("15.5", "with the hook's 7.6 mm that is more than the 20 mm that the end is wide", False),
    ],
)
def test_a_branch_wider_than_its_bar_is_out_in_every_row(wide: str, why: str, insist: bool) -> None:
    session = job_at(2)
    session.read("tine.width", "12.3")
    session.read("hook.width", "7.6")
    assert why in told_of(session, "tine.width", wide)
    assert "contradicts the metal" in told_of(session, "tine.width", wide, insist=insist)
    told = session.standing()
    assert told.verdict is not PlanState.ON_PLAN
    assert isinstance(told.reason, Words)
    assert write(told.reason).startswith(f"tine width was read as {wide} mm, which contradicts the metal")
    assert session.ways_back() == ()
    assert no_way_back(told).startswith("The tine width that was read contradicts the metal")
    assert session.done_warning()


def test_a_branch_that_goes_with_the_other_as_it_was_read_anew_contradicts_nothing() -> None:
    session = job_at(2)
    session.read("hook.width", "7.6")
    for name, size in (("tine.width", "15.5"), ("hook.width", "4.4")):
        session.read(name, size, insist=True)
    told = session.standing()
    assert not any(one.is_against_metal for one in told.checks)
    assert told.verdict is PlanState.OFF_PLAN
    assert isinstance(told.reason, Reason)
    assert told.reason.zone == "hook"


def test_a_cut_that_ran_aside_leaves_the_other_branch_what_it_left() -> None:
    """15.5 of 20 mm leaves 4.5 (arithmetic): nobody has to measure the hook for it to be short."""
    session = job_at(2)
    session.read("tine.width", "15.5")
    session.read("tine.width", "15.5")
    assert expected(session, "hook.width") == pytest.approx(4.5, abs=0.5)
    told = session.standing()
    assert told.verdict is not PlanState.ON_PLAN
    assert isinstance(told.reason, Reason)
    assert told.reason.zone == "hook"
    assert any("hook" in one.name for one in session.ways_back())


def test_the_way_back_of_two_branches_as_short_as_each_other_is_of_the_one_that_is_told() -> None:
    text = FORK.replace("long 170 ±35", "long 170 ±32").replace("long 130 ±35", "long 130 ±33")
    session = job_at(2, text)
    session.heat()
    told = session.standing()
    assert told.verdict is PlanState.TIGHT
    assert isinstance(told.reason, Reason)
    let = [one.name for one in session.ways_back() if one.name.startswith("let-it-give")]
    assert let == [f"let-it-give-{told.reason.zone}-length"]
