"""The cheeks of an eye, its hole and its width: three of them tell the fourth."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations

import pytest

from coach.bench.checks import Check
from coach.bench.in_turn import next_to_read
from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.reading import reading_sentence
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.told import why

BOTH = ["eye.cheek", "eye.other_cheek"]


def opened(*cheeks: tuple[str, str]) -> Session:
    """The eye of the hammer opened, 45 wide with a hole of 15: that leaves 30 for both cheeks."""
    job = at_step_of("cross-peen-hammer", 3)
    job.read("eye.width", "45")
    job.read("eye.hole_width", "15")
    for name, size in cheeks:
        job.read(f"eye.{name}", size)
    return job


def check_of(job: Session, name: str) -> Check:
    return next(check for check in job.standing().checks if check.name == f"eye.{name}")


def said_of(job: Session, name: str) -> str:
    return reading_sentence(check_of(job, name), Shown())


def test_a_cheek_is_wanted_half_of_what_width_and_hole_leave() -> None:
    # (45 − 15) / 2 = 15 each; bare sizes may be out by a twentieth (common practice, no source): 0.75.
    wanted = check_of(opened(("cheek", "15.1"), ("other_cheek", "14.9")), "cheek").wanted
    assert wanted is not None
    limits = wanted.limits
    assert (limits.nominal, limits.low, limits.high) == pytest.approx((15.0, 14.25, 15.75), abs=0.01)


def test_one_cheek_tells_the_other_and_that_the_hole_is_off_the_middle() -> None:
    # 45 − 15 − 12 = 18, and (18 − 12) / 2 = 3 off the middle.
    job = opened(("cheek", "12"))
    assert check_of(job, "cheek").verdict is Verdict.OUT
    told = said_of(job, "cheek")
    assert "By width and hole the other cheek is 18 mm: the hole stands 3 mm off the middle." in told
    assert "until each is 15 mm" in told
    assert job.standing().verdict is PlanState.TIGHT


def test_what_moves_a_hole_goes_by_the_step_that_opens_it_next_once_its_own_is_done() -> None:
    job = opened(("cheek", "12"))
    assert "until each is 15 mm" in why(job.standing())
    job.done()
    # By width and hole of step 3 it was 15; step 24 of the recipe drifts the eye to the haft.
    assert "until each is" not in why(job.standing())
    assert "Step 24 opens it next" in why(job.standing())


def test_cheeks_that_do_not_make_up_the_width_with_the_hole_are_questioned() -> None:
    # 10 + 15 + 10 = 35, not 45, and nothing says which of them is wrong.
    job = opened(("cheek", "10"), ("other_cheek", "10"))
    assert [check.name for check in job.standing().questioned] == BOTH
    for name in ("cheek", "other_cheek"):
        told = said_of(job, name)
        assert "leaves 30 mm of the 45 mm across it for both cheeks, and with the other cheek" in told
        assert "it makes 20 mm" in told


def test_so_they_are_where_width_and_hole_are_read_after_them() -> None:
    job = at_step_of("cross-peen-hammer", 3)
    for name, size in (("cheek", "10"), ("other_cheek", "10"), ("width", "45"), ("hole_width", "15")):
        job.read(f"eye.{name}", size)
    assert [check.name for check in job.standing().questioned] == BOTH


def test_the_same_cheek_twice_stands_and_the_two_are_held_against_each_other() -> None:
    job = opened(("cheek", "10"), ("other_cheek", "10"), ("other_cheek", "10"))
    # The other one is sure now: 45 − 15 − 10 leaves 20 for this one, or the width or the hole is wrong.
    assert [check.name for check in job.standing().questioned] == ["eye.cheek"]
    job.read("eye.cheek", "10")
    assert not job.standing().questioned
    assert {check_of(job, name).verdict for name in ("cheek", "other_cheek")} == {Verdict.GOOD}


def test_a_cheek_that_leaves_nothing_for_the_other_is_questioned() -> None:
    job = opened(("cheek", "40"))  # of the 30 that there are
    assert [check.name for check in job.standing().questioned] == ["eye.cheek"]


def test_an_eye_off_its_place_has_its_way_back_in_figures_and_once() -> None:
    job = opened(("cheek", "12"), ("other_cheek", "17.6"))
    ways = [way for way in job.ways_back() if "cheek" in way.name]
    assert [way.name for way in ways] == ["by-hand-eye-cheek"]
    # (17.6 − 12) / 2 = 2.8; each is to be (45 − 15) / 2 = 15.
    told = write(ways[0].changes, Shown())
    assert told.startswith("The other cheek is 17.6 mm: the hole stands 2.8 mm off the middle.")
    assert "until each is 15 mm" in told


def test_a_cheek_read_before_a_heat_says_nothing_against_a_width_read_after_it() -> None:
    job = at_step_of("cross-peen-hammer", 3)
    job.read("eye.cheek", "10")
    job.read("eye.other_cheek", "10")
    job.heat()
    job.read("eye.width", "45")
    job.read("eye.hole_width", "15")
    assert not job.standing().questioned


def test_of_a_hole_that_flares_the_cheek_is_held_against_its_middle() -> None:
    # Wide 44, the hole 17.6 at one mouth and 19.1 at the other: (44 − 18.35) / 2 = 12.8.
    job = at_step_of("cross-peen-hammer", 24)
    for name, size in (
        ("width", "44"),
        ("hole_width", "17.6"),
        ("far_hole_width", "19.1"),
        ("cheek", "12.8"),
    ):
        job.read(f"eye.{name}", size)
    cheek = check_of(job, "cheek")
    assert cheek.wanted is not None
    assert cheek.wanted.limits.nominal == pytest.approx(12.825, abs=0.05)
    assert cheek.verdict is Verdict.GOOD


def off_the_middle() -> Session:
    """The eye of the hatchet punched 2.3 mm off the middle, and that step done."""
    job = at_step_of("hedging-hatchet", 3)
    for _ in range(4):
        job.heat()
    job.read("eye.cheek", "9")
    job.read("eye.other_cheek", "13.6")
    job.done()
    return job


def listed(job: Session) -> list[str]:
    return [one.text for one in job.standing().to_right]


def test_an_eye_off_the_middle_stays_so_through_the_heats_of_the_next_step() -> None:
    job = off_the_middle()
    job.heat()
    assert listed(job) == ["cheek too low", "other cheek too high"]
    assert job.standing().verdict is PlanState.TIGHT
    assert check_of(job, "cheek").is_open
    assert check_of(job, "other_cheek").is_open


def test_it_is_settled_by_cheeks_read_alike_or_by_one_that_tells_the_other() -> None:
    # Across its hole it is 30.2 mm thick: 14 + 2 · 8.1.
    for names in (("cheek", "other_cheek"), ("cheek",)):
        job = off_the_middle()
        job.heat()
        for name, size in (("width", "35.5"), ("hole_width", "14"), *((name, "8.1") for name in names)):
            job.read(f"eye.{name}", size)
        assert not listed(job)
        assert job.standing().verdict is PlanState.ON_PLAN


def test_it_is_settled_once_it_is_said_to_be_right() -> None:
    job = off_the_middle()
    job.heat()
    for one in job.standing().to_right:
        job.righted(one.entry)
    assert not listed(job)
    assert job.standing().verdict is PlanState.ON_PLAN


def test_two_cheeks_read_anew_are_held_against_each_other_and_not_against_what_they_were() -> None:
    # 45 - 15 = 30 for both: 12 and 18 at first, and 14.8 and 15.1 once the eye is moved.
    job = opened(("cheek", "12"), ("other_cheek", "18"), ("cheek", "14.8"), ("other_cheek", "15.1"))
    assert not job.standing().questioned
    assert {check_of(job, name).verdict for name in ("cheek", "other_cheek")} == {Verdict.GOOD}


def unread_across(step: int, *read: tuple[str, str]) -> Session:
    """The eye of the hatchet, its thickness never measured, with what was read of it in a step."""
    job = at_step_of("hedging-hatchet", step)
    for _ in range(4 if step == 3 else 0):
        job.heat()
    for name, size in read:
        job.read(f"eye.{name}", size)
    return job


HOLE_AND_CHEEKS = (("hole_width", "9.1"), ("cheek", "7"), ("other_cheek", "10.5"))


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 1, 0), (1, 0, 2), (1, 2, 0)])
def test_hole_and_both_cheeks_tell_what_nobody_measured_across_them(order: tuple[int, ...]) -> None:
    # 9.1 + 7 + 10.5 = 26.6, whatever the metal lets one expect.
    job = unread_across(3, *(HOLE_AND_CHEEKS[at] for at in order))
    expected = check_of(job, "thickness").expected
    assert expected is not None
    assert expected.value == pytest.approx(26.6, abs=0.05)
    wanted = check_of(job, "cheek").wanted
    assert wanted is not None
    assert wanted.limits.nominal == pytest.approx((26.6 - 9.1) / 2, abs=0.05)


def test_a_thickness_that_was_measured_is_not_told_by_its_cheeks() -> None:
    job = unread_across(3, ("thickness", "28.4"), *HOLE_AND_CHEEKS)
    assert [check.name for check in job.standing().questioned] == BOTH
    job = unread_across(3, ("thickness", "26.6"), *HOLE_AND_CHEEKS)
    assert not job.standing().questioned


@pytest.mark.parametrize("thickness", ["24.4", "30.3"])
def test_cheeks_too_far_from_a_thickness_that_nobody_measured_ask_for_it(thickness: str) -> None:
    # 5 + 13.9 + 5.5 = 24.4; the plan has 30.3 there.
    job = unread_across(12, ("cheek", "5"), ("other_cheek", "5.5"), ("hole_width", "13.9"))
    told = said_of(job, "other_cheek")
    assert "with a hole of 13.9 mm both cheeks make 24.4 mm across" in told
    assert "eye thickness, which was not measured, is held to be 30.3 mm: read that, it decides" in told
    waits = next_to_read(job.standing())
    assert waits is not None
    assert waits.name == "eye.thickness"
    job.read("eye.thickness", thickness)
    if thickness != "24.4":
        assert [check.name for check in job.standing().questioned] == BOTH
        return
    job.read("eye.thickness", thickness)
    assert not job.standing().questioned


def drifted(*read: tuple[str, str]) -> Session:
    """The eye of the hatchet in its first drifting: the drift makes the hole 14, and nobody measures it."""
    job = at_step_of("hedging-hatchet", 4)
    for _ in range(2):
        job.heat()
    for name, size in (("thickness", "30.2"), *read):
        job.read(f"eye.{name}", size)
    return job


def test_cheeks_that_cannot_be_with_the_thickness_and_the_drift_are_questioned() -> None:
    # 30.2 - 14 = 16.2 for both; 5 + 5.5 with the hole of the drift make 24.5, 5.7 less than there is.
    job = drifted(("cheek", "5"), ("other_cheek", "5.5"))
    assert [check.name for check in job.standing().questioned] == BOTH
    told = said_of(job, "other_cheek")
    assert "with a hole of 14 mm, as the drift makes it, both cheeks make 24.5 mm across" in told
    assert "not measured" not in told  # the thickness was
    for name, size in (("cheek", "5"), ("other_cheek", "5.5")):
        job.read(f"eye.{name}", size)  # the same once more stands
    assert not job.standing().questioned


def test_cheeks_that_can_be_with_the_drift_are_not_questioned() -> None:
    assert not drifted(("cheek", "8"), ("other_cheek", "8.4")).standing().questioned


def test_cheeks_that_are_thin_may_be_half_a_millimetre_out() -> None:
    # 30.2 - 14 leaves 16.2, so 8.1 either, and a twentieth of that is 0.4: half a millimetre is more.
    job = drifted(("cheek", "7.2"), ("other_cheek", "9"))
    assert listed(job) == ["cheek too low", "other cheek too high"]
    assert not listed(drifted(("cheek", "7.8"), ("other_cheek", "8.4")))


def punched(order: Sequence[int], *read: tuple[str, str]) -> Session:
    """The adze's eye punched in a bar 45 wide, that nothing in the step makes narrower."""
    job = at_step_of("carpenters-adze", 10)
    for _ in range(3):
        job.heat()
    for at in order:
        job.read(f"eye.{read[at][0]}", read[at][1])
    return job


@pytest.mark.parametrize(
    ("hole", "one", "other", "made"),
    [("10", "14", "14", 38), ("9", "20", "14", 43)],  # 14 + 10 + 14 and 20 + 9 + 14
)
def test_cheeks_that_make_a_bar_narrower_than_it_was_are_questioned_and_ask_for_it(
    hole: str, one: str, other: str, made: int
) -> None:
    for order in permutations(range(3)):
        job = punched(order, ("hole_width", hole), ("cheek", one), ("other_cheek", other))
        assert sorted(check.name for check in job.standing().questioned) == BOTH
        for name in ("cheek", "other_cheek"):
            told = said_of(job, name)
            assert f"make {made} mm across, and this step cannot make that less than 45 mm" in told
            assert "read eye width, it decides" in told
        expected = check_of(job, "width").expected
        assert expected is not None
        assert expected.value > 45.0  # nothing is expected that the step cannot make
        waits = next_to_read(job.standing())
        assert waits is not None
        assert waits.name == "eye.width"


def told_of(job: Session) -> list[object]:
    """What the bench says that does not follow the order of typing itself."""
    standing = job.standing()
    checks = sorted(
        (check.name, str(check.verdict), check.is_questioned, reading_sentence(check, Shown()))
        for check in standing.checks
    )
    rights = sorted(one.text for one in standing.to_right)
    ways = [(way.name, write(way.changes, Shown())) for way in job.ways_back()]
    return [checks, rights, standing.verdict, round(standing.chance or 0.0, 6), why(standing), ways]


@pytest.mark.parametrize(
    "read",
    [
        (("hole_width", "10"), ("width", "47"), ("cheek", "14"), ("other_cheek", "14")),
        (("hole_width", "10.2"), ("width", "47"), ("cheek", "21.4"), ("other_cheek", "15.2")),
        (("hole_width", "10"), ("width", "46.5"), ("cheek", "14"), ("other_cheek", "22.5")),
    ],
)
def test_the_order_of_typing_says_nothing_of_either_cheek(read: tuple[tuple[str, str], ...]) -> None:
    first, *others = (
        told_of(punched(order, *read))
        for order in ((0, 1, 2, 3), (3, 2, 1, 0), (1, 3, 0, 2), (2, 3, 1, 0), (3, 0, 2, 1))
    )
    for other in others:
        assert other == first


def test_both_cheeks_are_taken_beside_a_slug_that_was_weighed_and_a_test() -> None:
    job = at_step_of("mattock", 3)
    job.heat()
    for name, size in (("hole_length", "44.3"), ("hole_width", "12.2"), ("thickness", "45")):
        job.read(f"eye.{name}", size)
    job.read("eye.slug", "70 g")
    job.read("eye.slug", "70 g")
    job.read("eye.crack_test", "pass")
    job.read("eye.cheek", "17")
    job.read("eye.other_cheek", "15")
    read = {check.name: check.reading for check in job.standing().checks}
    assert all(read[name] is not None for name in (*BOTH, "eye.slug"))


def test_cheeks_without_hole_and_width_say_what_they_make_of_the_width_that_is_wanted() -> None:
    # The mattock's punched eye wants 44 ±2 across with a hole of 12 ±1: 16 for either. 10 + 13 + 12 = 35.
    job = at_step_of("mattock", 3)
    job.read("eye.cheek", "10")
    job.read("eye.other_cheek", "13")
    told = said_of(job, "other_cheek")
    assert "The other cheek is 10 mm: the hole stands 1.5 mm off the middle." in told
    assert "until both are alike" in told
    assert "11.5" not in told
    assert "With the hole of 12 mm that is asked for, both make 35 mm across, and 44 ±2 mm is wanted" in told
    assert "measure the hole and the width" in told
    # Once they are measured they tell it: 44 − 20.5 = 23.5 for both.
    job.read("eye.hole_width", "20.5", insist=True)
    job.read("eye.width", "44")
    assert "both make" not in said_of(job, "other_cheek")


def test_cheeks_that_make_up_the_width_that_is_wanted_with_its_hole_say_no_more() -> None:
    job = at_step_of("mattock", 3)
    job.read("eye.cheek", "14.5")
    job.read("eye.other_cheek", "17.5")  # 32 with 12 is 44
    assert "until each is 16 mm" in said_of(job, "other_cheek")


def test_cheeks_wider_than_the_eye_s_metal_makes_are_both_questioned() -> None:
    """The hatchet's eye by hand: 13 + 13.4 + 8 = 34.4 mm across.

    Its bar is 25 mm thick and its punched eye is asked to be 28.5; read by itself 34.4 is questioned too.
    """
    by_itself = at_step_of("hedging-hatchet", 3)
    by_itself.heat()
    by_itself.read("eye.thickness", "34.4")
    assert "cannot be right" in said_of(by_itself, "thickness")
    job = at_step_of("hedging-hatchet", 3)
    job.heat()
    for name, size in (("cheek", "13"), ("other_cheek", "13.4"), ("hole_width", "8")):
        job.read(f"eye.{name}", size)
    for cheek in ("cheek", "other_cheek"):
        told = said_of(job, cheek)
        assert "both cheeks make 34.4 mm across, and this step cannot make that more than" in told
        assert "read eye thickness, it decides" in told
    assert job.standing().verdict is not PlanState.OFF_PLAN
