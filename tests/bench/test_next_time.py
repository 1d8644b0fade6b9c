"""What a job cost most, at which step; and the edit of the recipe that answers it."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from coach.bench.losing import LossAsked
from coach.bench.next_time import NextTime, with_edits
from coach.bench.outlook import outlook
from coach.bench.planned import planned_tool
from coach.bench.session import Session
from coach.ledger.looking_back import look_back
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities.refusal import Refusal
from coach.recipe.in_place import edited
from coach.recipe.reader import read_recipe
from coach.telling.chance import chance_text
from coach.telling.next_time import next_time_page, next_time_section
from coach.telling.page import Line
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun, shop
from tests.bench.test_do_again import TREATED
from tests.bench.test_heats_of_shop import STRAP as IN_FIVE_HEATS
from tests.bench.test_heats_of_shop import job as five_heats

PEG = """\
recipe: Tent peg
# A remark that stays.
pieces:
  peg:
    metal: mild steel
    bar: square 12
    zones:
      point: square 8 ±0.8, long 90 ±9
      shank: square 10 ±1, long 120 ±12
steps:
  - mark out: peg
  - draw: point, square 8 ±0.8, 2 heats, at light yellow
    title: Draw the point
    check: side, length
  - draw: shank, square 10 ±1, 1 heat, at yellow
    title: Draw the shank
    check: side, length
  - inspect: shank
    title: Look it over
"""


def end(session: Session) -> Session:
    while session.standing().step is not None:
        session.done()
    return session


def peg(heats: int = 2, side: str = "8") -> Session:
    """A peg whose point took so many heats and came so thick."""
    session = begun(PEG)
    session.done()
    for _ in range(heats):
        session.heat()
    session.read("point.side", side, insist=True)
    return end(session)


def sentences(found: NextTime) -> list[str]:
    return [one.words for one in next_time_section(found, Shown()).body if isinstance(one, Line)]


def test_three_sentences_are_told_of_every_job() -> None:
    found = end(at_step_of("first-hook", 1)).next_time()
    assert [cost.of for cost in found.costs] == ["metal", "heats", "chance"]
    assert len(sentences(found)) == 3
    assert found.finished


def test_the_step_that_took_most_heats_beyond_its_plan_is_told_with_its_heats_to_plan() -> None:
    found = peg(heats=5).next_time()
    heats = next(cost for cost in found.costs if cost.of == "heats")
    assert (heats.step, heats.title) == (2, "Draw the point")
    assert heats.edit is not None
    assert heats.edit.line == "heats 2 = 5"
    assert (heats.edit.heats_before, heats.edit.heats_after) == (3, 6)
    assert sentences(found)[1] == (
        "Most heats beyond the plan went into step 2, Draw the point: 5, and 2 planned. "
        "Next time: plan 5 heats for step 2."
    )


def test_metal_lost_by_an_accident_asks_for_no_longer_mark() -> None:
    session = begun(PEG)
    session.done()
    session.heat()
    session.lose(LossAsked("point", "20"))
    metal = session.next_time().costs[0]
    assert metal.step == 2
    assert metal.edit is None
    assert "by what no step takes" in sentences(session.next_time())[0]
    assert "Next time" not in sentences(session.next_time())[0]


def test_chance_that_was_won_back_is_told_so() -> None:
    session = begun(PEG)
    session.done()
    session.heat()
    session.lose(LossAsked("point", "20"))
    lost = sentences(session.next_time())[2]
    assert lost.startswith(
        "Most chance went at step 2, Draw the point, with 20 mm of the end of the point, burnt: from "
    )
    assert "and it is" not in lost
    session.take("mark-longer-point")
    assert sentences(session.next_time())[2].startswith(f"{lost.removesuffix('.')}, and it is ")


def test_chance_that_a_reading_took_is_told_though_it_was_accepted() -> None:
    session = begun(PEG)
    session.done()
    session.heat()
    session.heat()
    session.read("point.side", "7", insist=True)
    session.take("accept-point-side")
    told = sentences(end(session).next_time())[2]
    assert told.startswith("Most chance went at step 2, Draw the point: from ")
    ends = chance_text(session.standing().chance)  # as the job itself tells it
    assert f", and it is {ends} in the end. Next time: draw the point side " in told


def test_heats_of_a_step_that_is_done_again_are_told() -> None:
    session = begun(PEG)
    session.done()
    session.heat()
    session.heat()
    session.read("point.side", "8")
    session.done()
    session.heat()
    session.done()
    assert sentences(session.next_time())[1] == "Every step took the heats that were planned for it."
    crowbar = begun(TREATED)
    while (step := crowbar.standing().step) is not None and step.number < 5:
        crowbar.done()
    crowbar.read("poll.file test", "3")
    crowbar.take("do-again-harden")
    heats = end(crowbar).next_time().costs[1]
    assert sentences(crowbar.next_time())[1] == (
        "Most heats beyond the plan went into step 6, Again: normalise the poll: 1, for it was put in."
    )
    assert heats.edit is None


def test_heats_of_a_piece_that_was_spoiled_are_those_that_its_recipe_plans() -> None:
    """Its weld took the two heats planned; that the piece is cut anew makes none of them one too many."""
    session = at_step_of("folded-froe", 17)
    session.heat()
    session.heat()
    session.read("band 2.thickness", "22", insist=True)
    session.take("cut-another-band-2")
    heats = end(session).next_time().costs[1]
    told = session.sheet().heats
    assert sum(one.heats_planned for one in told.steps) == told.planned_now == told.taken
    assert "for it was put in" in sentences(session.next_time())[1]
    assert heats.edit is None


def test_a_job_that_took_fewer_heats_may_plan_fewer() -> None:
    heats = peg(heats=1).next_time().costs[1]
    assert heats.edit is not None
    assert heats.edit.line == "heats 2 = 1"


def test_a_job_that_took_what_was_planned_has_no_heat_to_change() -> None:
    heats = peg(heats=2).next_time().costs[1]
    assert (heats.step, heats.edit) == (0, None)


def test_five_heats_instead_of_two_cost_metal_and_a_longer_mark_gives_it_back() -> None:
    session = begun(PEG)
    session.done()
    for _ in range(9):
        session.heat()
    found = end(session).next_time()
    metal = found.costs[0]
    assert metal.step == 2
    assert metal.edit is not None
    assert metal.edit.line.startswith("allowance point = ")
    assert metal.edit.bar_after.value > metal.edit.bar_before.value


def test_a_size_that_came_outside_is_offered_wider_limits_that_hold_it() -> None:
    found = peg(side="9.5").next_time()
    chance = found.costs[2]
    assert chance.edit is not None
    assert chance.edit.line.startswith("point.side=8 +")
    recipe = read_recipe(edited(PEG, "peg.yaml", chance.edit.line), "peg.yaml")
    assert recipe.drawing["point"].limits["side"].contains(9.5)


def test_all_that_came_outside_is_drawn_wider_by_one_edit() -> None:
    """What lets a thickness go lets go the length that follows from it: one limit alone mends nothing."""
    session = begun(PEG)
    session.done()
    session.heat()
    session.read("point.side", "6.3", insist=True)
    session.read("point.length", "130", insist=True)
    edit = end(session).next_time().costs[2].edit
    assert edit is not None
    assert edit.told.template
    text = edited(PEG, "peg.yaml", edit.line)
    limits = read_recipe(text, "peg.yaml").drawing["point"].limits
    assert limits["side"].contains(6.3)
    assert limits["length"].contains(130.0)
    assert "# A remark that stays." in text
    assert "point: square 8 +0.8" in text


def test_a_step_that_says_what_the_drawing_asks_is_widened_with_it() -> None:
    """The changed recipe bears the job that asked for it: the step's own line lets the size pass too."""
    edit = peg(side="6.6").next_time().costs[2].edit
    assert edit is not None
    text = edited(PEG, "peg.yaml", edit.line)
    recipe = read_recipe(text, "peg.yaml")
    assert recipe.steps[1].targets["side"] == recipe.drawing["point"].limits["side"]
    assert recipe.steps[1].targets["side"].contains(6.6)
    assert recipe.steps[2] == read_recipe(PEG, "peg.yaml").steps[2]
    assert "- draw: point, square 8 +0.8 -" in text
    assert "# A remark that stays." in text
    assert len([line for line in edit.diff if line.startswith("-")]) == 2


def test_a_step_that_works_to_the_drawing_without_saying_it_keeps_its_line() -> None:
    """It has the drawing's limits by the drawing alone: nothing of its line goes."""
    unsaid = PEG.replace("draw: point, square 8 ±0.8,", "draw: point,")
    session = begun(unsaid)
    session.done()
    session.heat()
    session.read("point.side", "6.6", insist=True)
    edit = end(session).next_time().costs[2].edit
    assert edit is not None
    recipe = read_recipe(edited(unsaid, "peg.yaml", edit.line), "peg.yaml")
    assert recipe.steps[1].targets["side"].contains(6.6)
    assert len([line for line in edit.diff if line.startswith("-")]) == 1


def test_what_is_shown_is_what_is_made_and_the_rest_stays_as_it_was() -> None:
    session = peg(heats=5)
    found, recipe = session.next_time(), session.recipe_begun_by
    heats = found.costs[1].edit
    assert heats is not None
    assert any(line.startswith("-") and "2 heats" in line for line in heats.diff)
    assert any(line.startswith("+") and "5 heats" in line for line in heats.diff)
    text = with_edits(recipe, found, ("heats",))
    assert "# A remark that stays." in text
    again = read_recipe(text, "peg.yaml")
    assert [step.heats for step in again.steps] == [0, 5, 1, 0]
    assert again.drawing == recipe.drawing
    look_back(again)


def test_what_has_no_change_is_refused() -> None:
    session = peg(heats=2)
    with pytest.raises(Refusal, match="nothing to change for the heats"):
        with_edits(session.recipe_begun_by, session.next_time(), ("heats",))


def test_nothing_is_entered_by_asking() -> None:
    session = peg(heats=5)
    before = len(session.history())
    session.next_time()
    assert len(session.history()) == before


@pytest.mark.parametrize("recipe", ["carpenters-adze", "bolt-tongs", "layered-knife"])
def test_every_edit_that_is_offered_makes_a_recipe_that_can_be_forged(recipe: str) -> None:
    session = end(at_step_of(recipe, 3))
    found = session.next_time()
    taken = tuple(cost.of for cost in found.costs if cost.edit is not None)
    if taken:
        look_back(read_recipe(with_edits(session.recipe_begun_by, found, taken), f"{recipe}.yaml"))


def test_where_no_longer_mark_is_proposed_it_is_said_why() -> None:
    session = begun(PEG)
    session.done()
    session.heat()
    session.heat()
    session.read("point.side", "8")
    session.read("point.length", "40", insist=True)  # and no fire has told where the metal went
    found = end(session).next_time()
    assert found.costs[0].edit is None
    # What went is 50 of 90 mm, and so much longer than 90 it would then come out (arithmetic).
    assert (
        "; no longer mark is proposed, for it would take an allowance of 55.5 %,"
        " and with it the chance would go from over 99 % to under 1 %:"
        " the point length would come out at 140 "
    ) in sentences(found)[0]
    assert sentences(found)[0].endswith(", and 90 ±9 mm is wanted.")


def test_what_was_read_on_the_way_and_worked_since_is_no_metal_that_was_there() -> None:
    session = begun(PEG)
    session.done()
    session.heat()
    session.read("point.side", "6.5", insist=True)  # so thin it would be far longer, with no more metal
    session.heat()
    session.read("point.side", "8", insist=True)  # it was another size, or was upset back
    session.done()
    points = [one for one in session.spare_gone().points if one.zone == "point"]
    assert max(one.spare.value for one in points) > points[0].spare.value + 10
    told = sentences(end(session).next_time())[0]
    assert "the point length had" not in told or "Draw the point" not in told, told


def test_the_mark_that_is_proposed_answers_the_loss() -> None:
    """A point that 4 % more was marked for, and that lost more than it has left: that much is there again."""
    session = begun(PEG)
    session.done()
    for _ in range(9):
        session.heat()
    found = end(session).next_time()
    gone = [one for one in session.spare_gone(every=True).points if one.zone == "point"]
    edit = found.costs[0].edit
    assert edit is not None
    longer = read_recipe(edited(PEG, "peg.yaml", edit.line), "peg.yaml")
    spares = [
        next(one.spare.value for one in outlook(look_back(recipe)).found.zones["point"].spares)
        for recipe in (session.recipe_begun_by, longer)
    ]
    steps = [*{one.step: one for one in reversed(gone)}.values()]
    went = max(a.spare.value - b.spare.value for b, a in pairwise(steps))
    assert spares[1] - spares[0] == pytest.approx(went, abs=0.2)


def test_where_enough_to_spare_is_left_no_longer_mark_is_proposed() -> None:
    session = begun(PEG)
    session.done()
    for _ in range(2):
        session.heat()
    session.read("point.side", "8")
    session.read("point.length", "88")
    found = end(session).next_time()
    assert found.costs[0].edit is None
    assert sentences(found)[0].endswith(
        "; no longer mark is proposed, for 7 mm to spare is left, more than went."
    )


def test_another_drawing_is_no_metal_that_a_step_took_and_no_chance_that_it_cost() -> None:
    session = begun(PEG)
    session.done()
    for _ in range(2):
        session.heat()
    session.read("point.side", "8")
    session.read("point.length", "90")
    session.change("point.length=100 ±4")
    told = sentences(end(session).next_time())
    assert any("No step took more metal than was planned" in one for one in told), told
    assert any("No step took any chance from the drawing" in one for one in told), told


def test_metal_that_a_look_finds_missing_was_not_taken_by_the_look() -> None:
    """The shank is reckoned about 120 mm long, as it was marked out; it is read 110 as it is looked over."""
    session = begun(PEG)
    session.done()
    for read in (("point.side", "8"), ("shank.side", "10")):
        session.heat()
        session.heat()
        session.read(*read)
        session.done()
    session.read("shank.length", "110", insist=True)
    told = sentences(end(session).next_time())[0]
    assert told.startswith(
        "Most metal was found gone at step 4, Look it over, which takes none of it: the shank"
    )
    assert "Most metal went" not in told


@pytest.mark.parametrize(("missing_mm", "is_told"), [(0.5, False), (6.0, True)])
def test_what_a_look_finds_within_the_doubt_that_was_told_is_no_lesson(
    missing_mm: float, is_told: bool
) -> None:
    """The shank may be 120 - 12 = 108 mm long, and how long it is was reckoned to 1 or 2 mm.

    A look that finds it half a millimetre short of that found what it was told it might; 6 mm is more.
    """
    session = begun(PEG)
    session.done()
    for size in (("point.side", "8"), ("shank.side", "10")):
        for _ in range(2 if size[0] == "point.side" else 1):
            session.heat()
        session.read(*size)
        session.done()
    spare = next(one.spare for one in session.standing().spares if one.zone == "shank")
    assert spare.doubt is not None
    assert 0.5 < 1.645 * spare.doubt < 6.0
    session.read("shank.length", f"{108.0 + spare.value - missing_mm:.1f}", insist=True)
    told = sentences(end(session).next_time())[0]
    assert ("found gone at step 4" in told) is is_told, told


def test_a_mark_that_lies_short_is_told_as_that_and_not_as_metal_that_went() -> None:
    """The point's mark is set 5 mm too near to its end: the next job needs no longer mark than was told."""
    session = begun(PEG)
    told = next(one for one in session.standing().checks if one.name == "point.mark")
    assert told.wanted is not None
    assert told.wanted.limits is not None
    session.read("point.mark", f"{told.wanted.limits.nominal - 5.0:.1f}", insist=True)
    told_then = sentences(end(session).next_time())[0]
    assert told_then.startswith("Most metal was marked off too little at step 1, Mark out the peg: the point")
    assert told_then.endswith("no longer mark is proposed, for those that were told give it enough.")
    assert session.next_time().costs[0].edit is None


def test_a_chance_that_a_look_finds_gone_was_not_taken_by_the_look() -> None:
    session = begun(PEG)
    session.done()
    for read in (("point.side", "8"), ("shank.side", "10")):
        session.heat()
        session.heat()
        session.read(*read)
        session.done()
    session.read("shank.length", "104", insist=True)
    told = sentences(end(session).next_time())[2]
    assert told.startswith("Most chance was found gone at step 4, Look it over: from"), told


def test_what_nobody_measured_is_no_chance_that_the_last_step_took() -> None:
    """Nothing is read of a fork: until its last step its chance rises, and looking it over takes none."""
    session = end(at_step_of("meat-fork", 1))
    told = sentences(session.next_time())[2]
    ends = chance_text(session.standing().chance)
    assert "step 13" not in told
    assert told == (
        f"No step took any chance from the drawing; it is {ends} in the end, for not every size was measured."
    )


STRAP = """\
recipe: Trial strap
pieces:
  strap:
    metal: mild steel
    bar: 30 x 8, long 900
    zones:
      body: 26 ±1.2 x 4.5 ±0.5, long 120 ±12, allowance 4 %
      leaf: 43 ±6 x 4 ±0.5, long 72 ±14, allowance 4 %
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: strap
  - cut: leaf, cold
  - draw: body, 26 ±1.2 x 4.5 ±0.5, 3 heats
  - spread: leaf, thick 4 ±0.5, 2 heats
    title: Spread the leaf
    check: thickness, width, length
  - straighten: body, bow at most 1.5, 1 heat, at orange, also hot leaf
    check: bow
  - inspect: leaf
    check: width
"""


def strap_left_thick() -> tuple[Session, list[str]]:
    """A leaf that came half a millimetre too thick, and the chances that were told all along."""
    session = begun(STRAP)
    told = [chance_text(session.standing().chance)]
    while (step := session.standing().step) is not None:
        if step.number == 4:
            for _ in range(2):
                session.heat()
            for size, read in (("thickness", "4.5"), ("width", "43"), ("length", "66")):
                session.read(f"leaf.{size}", read)
                told.append(chance_text(session.standing().chance))
        session.done()
        told.append(chance_text(session.standing().chance))
    return session, told


def test_every_chance_that_is_told_of_a_job_was_told_in_it() -> None:
    session, told = strap_left_thick()
    sentence = sentences(session.next_time())[2]
    assert "at step 4, Spread the leaf" in sentence
    for one in re.findall(r"(?:over |under )?\d+ %", sentence):
        assert one in told, (sentence, told)


def test_metal_that_stands_in_the_thickness_is_not_told_as_gone_and_no_longer_bar_answers_it() -> None:
    """43 x 4.5 x 66 = 12 771 mm³ of 55.2 x 240 less scale = 12 898 mm³: the metal is there, to be thinned."""
    session, _ = strap_left_thick()
    metal = session.next_time().costs[0]
    told = sentences(session.next_time())[0]
    assert "Most metal went at step 4" not in told
    assert metal.edit is None, told
    assert "thick" in told


def strap_burnt(thickness: str, length: str) -> Session:
    """Five heats where three are planned, in a job whose blade comes so thick and so long."""
    session = begun(IN_FIVE_HEATS)
    session.done()
    session.done()
    for _ in range(5):
        session.heat()
    for name, size in (("thickness", thickness), ("width", "37"), ("length", length)):
        session.read(f"blade.{name}", size, insist=True)
    session.done()
    return end(session)


def test_metal_that_burnt_is_told_though_a_little_of_it_stands_in_the_thickness() -> None:
    """The blade ends t thick and w wide where 4.5 and 37 are drawn: (t/4.5 + w/37 - 2) · l stand in it."""
    session = strap_burnt("4.6", "138")
    came = {
        one.dimension: one.came.value for one in session.sheet().sizes if one.zone == "blade" and one.came
    }
    standing_mm = (came["thickness"] / 4.5 + came["width"] / 37.0 - 2.0) * came["length"]
    blade = [one for one in session.spare_gone(every=True).points if one.zone == "blade"]
    assert 0.5 < standing_mm < 0.5 * (blade[0].spare.value - blade[-1].spare.value)
    told = sentences(session.next_time())[0]
    assert told.startswith("Most metal went at step 3, Draw the blade: the blade length"), told
    assert f", of which {standing_mm:.1f} mm stands in its section" in told


def test_a_twentieth_on_the_gauge_does_not_turn_what_took_most_metal() -> None:
    """4.6 x 136, 4.65 x 134.5 and 4.7 x 133 are 625.6, 625.4 and 625.1 mm²: as much metal is gone of each."""
    told = [
        sentences(strap_burnt(*one).next_time())[0].partition(":")[0]
        for one in (("4.6", "136"), ("4.65", "134.5"), ("4.7", "133"))
    ]
    assert len({*told}) == 1, told


def test_what_all_edits_do_at_once_is_what_their_recipe_then_plans() -> None:
    session = peg(heats=7)
    found = session.next_time()
    offered = tuple(cost.of for cost in found.costs if cost.edit is not None)
    assert len(offered) > 1
    assert found.together is not None
    plan = look_back(read_recipe(with_edits(session.recipe_begun_by, found, offered), "peg.yaml"))
    assert found.together.bar_after.value == pytest.approx(sum(p.length.value for p in plan.pieces.values()))
    assert found.together.heats_after == sum(step.heats for step in plan.recipe.steps)
    assert "All of them together" in [part.heading for part in next_time_page(found, Shown()).sections]


def test_a_longer_mark_and_more_heats_give_back_what_went_once_and_not_twice() -> None:
    """What two more heats took, L mm of 37 x 4.5, is made good by L · 166.5 / 240 mm of 30 x 8.

    Five heats planned mark the blade out longer for their scale already; the allowance beside them is for
    what that does not give.
    """
    session = strap_burnt("4.5", "138")
    found = session.next_time()
    blade = [one.spare.value for one in session.spare_gone(every=True).points if one.zone == "blade"]
    by_hand_mm = (blade[0] - blade[-1]) * 37.0 * 4.5 / (30.0 * 8.0)
    assert found.together is not None
    more_mm = found.together.bar_after.value - found.together.bar_before.value
    assert more_mm == pytest.approx(by_hand_mm, rel=0.1)
    beside = found.metal_beside_heats
    assert beside is not None
    metal = found.costs[0].edit
    assert metal is not None
    assert with_edits(session.recipe_begun_by, found, ("metal", "heats")).count("allowance") == 1
    assert beside.line in found.together.line
    told = sentences(found)[0]
    assert told.endswith(" %, or 5.5 % where you plan 5 heats for step 3 as well."), told


def test_heats_that_are_planned_as_they_were_taken_leave_no_longer_mark_to_be_made() -> None:
    """All that went from the peg burnt in the heats beyond its plan: planned, they mark it out for it."""
    found = peg(heats=7).next_time()
    metal, heats = found.costs[:2]
    assert metal.edit is not None
    assert heats.edit is not None
    assert found.metal_beside_heats is None
    assert sentences(found)[0].endswith(
        ", but not where you plan 7 heats for step 2 as well: that marks it out for what went."
    )
    assert with_edits(peg(heats=7).recipe_begun_by, found, ("metal", "heats")).count("allowance") == 0


def test_what_the_shop_learned_of_heats_is_not_counted_once_more_on_the_heats_that_an_edit_plans() -> None:
    """What next-time tells of the changed recipe is what a plan of the changed recipe then tells."""
    at = shop()
    for _ in range(3):
        session = five_heats(at)
    found = at.next_time(session)
    edit = found.costs[1].edit
    assert edit is not None
    began = session.recipe_begun_by
    assert "heats" in {one.what for one in at.begins_with(began) if isinstance(one, ShopKnown)}
    changed = read_recipe(with_edits(began, found, ("heats",)), "strap.yaml")
    plan = planned_tool(look_back(changed), at.begins_with(changed))
    assert edit.chance_after == plan.chance
