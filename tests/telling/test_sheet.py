"""The sheet of a job as it is told."""

from __future__ import annotations

from pathlib import Path

from coach.bench.hafting import HaftAsked
from coach.bench.session import Session
from coach.bench.sizes_came import SizeVerdict
from coach.cli.page import set_page
from coach.telling.sheet import others_text, sheet_page
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER, at_step_of, begun
from tests.bench.test_sheet import let_go, peg
from tests.screens.stage import a_job, a_shop
from tests.screens.test_golden_screens import under_way


def told(session: Session, shown: Shown | None = None) -> str:
    """The whole sheet on one line."""
    return " ".join(" ".join(set_page(sheet_page(session.sheet(), shown or Shown()))).split())


def test_a_finished_tool_says_when_it_was_finished_and_how_many_sizes_came_as_drawn() -> None:
    words = told(peg(point__side="8.1", shank__angle="90"))
    assert words.startswith("Tent peg (tent-peg): finished 2 March 2026.")
    # The peg is drawn with four sizes; its bend has an angle and a radius, which a step asks for.
    assert "1 of 4 sizes came as drawn: 3 not measured." in words
    assert "Of 2 asked for by the steps 1 came as wanted: 1 not measured." in words
    assert "To put right" not in words.partition("The drawing and the tool")[0]
    assert "✓ point side 8 ±0.8 mm 8.1 mm within" in words
    assert "✓ shank angle 90 ±5° 90° within" in words


def test_an_unfinished_job_is_told_so_far() -> None:
    session = let_go()
    session.done()
    words = told(session)
    assert "so far, 1 of 4 steps done." in words
    assert "1 of 3 planned up to this step" in words
    assert "to come" in words


def test_what_nobody_measured_is_told_so_with_what_is_reckoned() -> None:
    words = told(peg())
    assert (
        "0 of 4 sizes came as drawn: 4 not measured. Of 2 asked for by the steps 0 came as wanted: 2 not"
        in words
    )
    assert "· shank side 10 ±1 mm — not measured; reckoned 9.9 ±" in words
    assert "every size is within the drawing" not in words


def test_a_size_let_go_has_a_sign_of_its_own_and_what_let_it_go() -> None:
    session = let_go()
    session.done()
    words = told(session)
    assert "○ point side 8 ±0.8 mm 6.6 mm let go; 6.6 ±0.8 mm allowed by “Accept the point side" in words
    assert "Step 1: Accept the point side at 6.6 mm" in words


def test_a_verdict_leaves_out_of_what_is_within_the_drawing_the_sizes_that_were_let_go(
    tmp_path: Path,
) -> None:
    with a_shop(tmp_path) as shop:
        session = a_job(shop)
        under_way(session)
        session.read("shank.side", "8.5")
        session.take("accept-shank-side")
        session.read("shank.length", "163")
        session.done()
        words = told(session)
    assert "Every size but the 2 let go is within the drawing." in words
    assert "2 of 4 sizes came as drawn: 2 let go." in words


def test_as_many_sizes_are_let_go_on_the_sheet_as_in_its_verdict() -> None:
    """The side that was accepted is worked once more and not measured again: it counts as let go in both."""
    session = let_go()
    session.done()
    sheet = session.sheet()
    assert others_text(sheet) == "1 let go, 1 not measured, 2 to come"
    unread = [
        one._replace(came=None, reckoned=one.came, verdict=SizeVerdict.NOT_MEASURED)
        if one.verdict is SizeVerdict.LET_GO
        else one
        for one in sheet.sizes
    ]
    told = others_text(sheet._replace(sizes=tuple(unread)))
    assert told == "2 not measured (1 of these let go), 2 to come"


def test_a_size_beyond_its_limit_is_told_with_how_far_and_on_which_side() -> None:
    # Read at 11.6; the heat to bend it takes 0.03 mm off either face.
    assert "✗ shank side 10 ±1 mm 11.5 mm 0.5 mm over" in told(peg(shank__side="11.6"))


def test_it_is_told_in_inches_where_those_are_asked_for() -> None:
    words = told(peg(point__side="8.1"), Shown("in"))
    assert "0.315 ±0.031 in" in words  # 8 ±0.8 mm: 0.28346 to 0.34646 in, and 9/32 would be 7.14 mm
    assert " mm" not in words


def test_notes_tests_and_what_is_to_be_put_right_are_told() -> None:
    session = peg(shank__crack_test="fail")
    session.note("the point wants a longer heat")
    words = told(session)
    assert "✗ shank crack test failed" in words
    assert "At the end: the point wants a longer heat" in words
    assert "Shank: crack test failed (step 4)." in words
    assert (
        "To put right: shank: crack test failed (step 4)." in words.partition("The drawing and the tool")[0]
    )
    assert "Nothing is left to put right." in told(peg())


def test_an_eye_worked_to_a_haft_is_held_against_the_haft_and_is_not_let_go() -> None:
    session = begun(HAMMER)
    session.fit_haft(HaftAsked("31x20"))  # the drawing has 28 ±1 by 17 ±0.8
    while (step := session.standing().step) is not None and step.number <= 4:
        for check in session.standing().checks:
            if check.dimension in ("hole_length", "hole_width") and check.wanted is not None:
                session.read(check.name, f"{check.wanted.limits.nominal:.1f}")
        session.done()
    words = told(session)
    assert "✓ eye hole width" in words
    assert "within; worked to the haft, step 1; 17 ±0.8 mm drawn" in words
    assert "let go" not in words


def test_what_was_read_before_later_heats_is_reckoned_on_and_has_no_sign_of_what_was_read_so() -> None:
    text = (Path(__file__).parents[2] / "recipes" / "first-hook.yaml").read_text("utf-8")
    session = begun(text.replace("format: 1", "", 1))
    while (step := session.standing().step) is not None:
        for _ in range(step.heats_planned):
            session.heat()
        if step.number == 2:
            session.read("tip.thickness", "8")
        session.done()
    came = next(one.came for one in session.sheet().sizes if one.name == "tip.thickness")
    assert came is not None
    assert came.value < 8.0, "the heats of the steps after it took their scale"
    words = told(session)
    assert "≈ tip thickness" in words
    assert "within, reckoned on; read 8 mm" in words
    assert "✓ tip thickness" not in words


def test_heats_that_nobody_marked_are_told_so() -> None:
    session = begun(HAMMER)
    session.done()
    session.heat()
    session.heat()
    session.done()  # drawn in the two heats that were marked
    assert "not marked" not in told(session)
    session.done()  # punched, in the three that are planned
    assert session.sheet().heats.unmarked == 3
    assert "5 of 7 planned up to this step; 3 not marked" in told(session)


def test_of_the_heats_planned_those_still_to_come_in_the_step_in_hand_are_told() -> None:
    session = begun(HAMMER)
    session.done()
    session.heat()  # the first of its two
    assert "still to come" in told(session)
    assert "; 1 still to come" in told(session)
    session.heat()
    assert "still to come" not in told(session)


def test_how_hard_a_temper_is_to_leave_the_steel_stands_with_its_heat() -> None:
    words = told(at_step_of("cold-chisel", 11))  # the recipe wants 54 to 58 of its temper, step 10
    row = words.partition("How the steel was treated")[2].partition("What it took")[0]
    assert "54 to 58 HRC" in row
