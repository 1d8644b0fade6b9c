"""Ways back onto plan: offered when they help, reckoned as they turn out, taken back by striking them out."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.forms import label
from coach.ledger.remedies import WayBack
from coach.places import bundled_recipes
from coach.quantities.words import say
from coach.telling.why import reason_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun, shop
from tests.told import entry_text, said, why

#: A poll is set down and a blade drawn out of one bar; the blade may show what is spare or missing.
TWO = """
title: Two zones
pieces:
  body: {metal: mild steel, stock: {form: square, side: 34, length: 300}, zones: [poll, blade]}
drawing:
  poll: {form: square, side: 28 ±1, length: 60 ±5}
  blade: {form: flat, width: 34 ±1, thickness: 12 ±1, length: 150 ±8}
steps:
  - {do: mark out, piece: body}
  - {do: set down, zone: poll, to: {side: 28 ±1}, heats: 3, check: [side, length]}
  - {do: draw, zone: blade, form: flat, to: {width: 34 ±1, thickness: 12 ±1}, heats: 4}
"""

STEELED = """
title: Faced
pieces:
  body: {metal: mild steel, stock: {form: square, side: 30}}
  face: {metal: C45, stock: {form: square, side: 30}}
drawing:
  body: {form: square, side: 28 ±1, length: 60 ±3}
  face: {form: square, side: 29 ±1, length: 12 ±2}
steps:
  - {do: draw, zone: body, to: {side: 29 ±1}, heats: 2, check: [side, length]}
  - {do: draw, zone: face, to: {side: 29 ±1}, heats: 1}
  - {do: weld, zone: body, lay: face, to: {side: 28 ±1}, heats: 2}
"""


def offered(session: Session) -> dict[str, WayBack]:
    return {remedy.name: remedy for remedy in session.ways_back()}


def short_poll() -> Session:
    """The poll marked 4 mm short, in a bar that has metal left."""
    session = begun(TWO)
    wanted = session.standing().checks[0].wanted
    assert wanted is not None
    session.read("poll.length", str(round(wanted.limits.nominal - 4.0, 1)), insist=True)
    return session


def thin_poll() -> Session:
    """The poll set down to 24 where 28 is wanted."""
    session = begun(TWO)
    session.done()
    session.read("poll.side", "24", insist=True)
    return session


def test_nothing_is_offered_while_nothing_is_wrong() -> None:
    assert begun(TWO).ways_back() == ()


def test_a_zone_marked_short_can_be_marked_longer_while_the_bar_is_whole() -> None:
    remedies = offered(short_poll())
    # Metal is enough then; but the blade keeps the 4 mm of bar, 161 mm of it where 158 are the most.
    assert remedies["mark-longer-poll"].chance > 0.95
    assert remedies["mark-longer-poll"].verdict == "tight"
    assert "longer on the bar" in write(remedies["mark-longer-poll"].title)
    assert next(iter(remedies)) == "mark-longer-poll"


def test_a_zone_marked_longer_tells_where_all_the_marks_lie_then() -> None:
    session = short_poll()
    way = offered(session)["mark-longer-poll"]
    told = write(way.changes)
    session.take(way.name)
    forms = session.forms_now()
    poll_mm = forms["poll"].size_mm("length")
    assert f"the poll ends at {poll_mm:.1f} mm, " in told
    assert f"the blade ends at {poll_mm + forms['blade'].size_mm('length'):.1f} mm" in told
    assert told.endswith("from the end of the bar.")


def test_once_forged_a_short_zone_is_not_marked_longer_but_may_be_welded_on() -> None:
    session = short_poll()
    session.done()
    session.read("poll.side", "28")
    names = offered(session)
    assert "mark-longer-poll" not in names
    assert names["weld-on-more-poll"].soundness.value == "doubtful: test it"
    assert names["weld-on-more-poll"].heats == 3


def test_a_poll_gone_too_thin_can_be_upset_or_accepted_or_begun_again() -> None:
    remedies = offered(thin_poll())
    assert {"upset-poll-side", "accept-poll-side", "start-again"} <= set(remedies)
    assert remedies["upset-poll-side"].heats == 2
    # By hand: 24 back to 28 square shortens to (24 / 28)² of the length, 26.5 % less.
    assert "shortens by" in write(remedies["upset-poll-side"].changes)


def test_beyond_three_thicknesses_upsetting_is_warned_of_and_not_forbidden() -> None:
    # Forging Industry Association, design rules for upset forgings: at most three diameters unsupported.
    warned = offered(thin_poll())["upset-poll-side"]
    assert "buckles" in write(warned.caution)


@pytest.mark.parametrize("name", ["upset-poll-side", "accept-poll-side"])
def test_the_chance_told_is_the_chance_shown_once_it_is_taken(name: str) -> None:
    session = thin_poll()
    told = offered(session)[name]
    answer = session.take(name)
    assert said(answer).startswith(f"{write(told.title)}: taken.")
    assert session.standing().chance == pytest.approx(told.chance, abs=1e-9)
    assert session.standing().verdict == told.verdict


@pytest.mark.parametrize("name", ["upset-poll-side", "accept-poll-side"])
def test_striking_a_remedy_out_brings_everything_back(name: str) -> None:
    session = thin_poll()
    before = session.standing()
    session.take(name)
    session.strike()
    after = session.standing()
    assert (after.sizes, after.spares, after.chance, after.checks) == (
        before.sizes,
        before.spares,
        before.chance,
        before.checks,
    )


def test_accepting_aims_the_drawing_and_the_steps_at_what_is_there() -> None:
    session = thin_poll()
    session.take("accept-poll-side")
    standing = session.standing()
    assert standing.verdict == "on plan"
    wanted = next(size.wanted for size in standing.sizes if size.name == "poll.side")
    assert wanted.limits.nominal == pytest.approx(24.0, abs=0.3)


def test_after_upsetting_the_next_reading_counts_from_the_new_size() -> None:
    session = thin_poll()
    session.take("upset-poll-side")
    check = session.standing().checks[0]
    # What was read before is not so any more: it is to be measured again.
    assert (check.name, check.reading, check.verdict) == ("poll.side", None, None)
    assert session.standing().next_check == "poll.side"
    answer = session.read("poll.side", "28.2")
    assert "good" in said(answer)


def test_a_size_with_more_to_go_is_forged_further_at_the_price_of_its_heats() -> None:
    session = begun(TWO)
    session.done()
    for _ in range(3):
        session.heat()
    session.read("poll.side", "31")
    remedy = offered(session)["forge-further-poll-side"]
    assert remedy.heats >= 1
    session.take("forge-further-poll-side")
    step = session.standing().step
    assert step is not None
    assert step.heats_planned == 3 + remedy.heats


def test_steel_not_forged_yet_is_taken_bigger_for_a_host_that_is_short() -> None:
    session = begun(STEELED)
    session.read("body.side", "29")
    session.read("body.length", "41", insist=True)
    remedy = offered(session)["more-steel-face-length"]
    assert remedy.chance > session.standing().chance
    session.take("more-steel-face-length")
    wanted = next(size.wanted for size in session.standing().sizes if size.name == "face.length")
    assert wanted.limits.nominal > 12.5
    session.done()
    session.read("face.side", "29")
    assert "more-steel-face-length" not in offered(session)


def test_letting_a_dimension_give_lowers_its_least_and_nothing_else() -> None:
    session = begun(STEELED)
    session.read("body.side", "29")
    session.read("body.length", "41", insist=True)
    before = {size.name: size.wanted for size in session.standing().sizes}
    session.take("let-it-give-body-length")
    after = {size.name: size.wanted for size in session.standing().sizes}
    low, was = after["body.length"].limits.low, before["body.length"].limits.low
    assert low < was
    assert {k: v for k, v in after.items() if k != "body.length"} == {
        k: v for k, v in before.items() if k != "body.length"
    }


def test_too_much_metal_is_cut_or_left() -> None:
    session = begun(TWO)
    session.done()
    session.done()
    session.read("blade.thickness", "12")
    session.read("blade.width", "34")
    session.read("blade.length", "172", insist=True)
    session.read("blade.length", "172")
    remedies = offered(session)
    leave = remedies["too-much-metal-leave-blade-length"]
    assert "over what the drawing allows" in write(leave.changes)
    session.take("too-much-metal-cut-blade-length")
    length = next(size for size in session.standing().sizes if size.name == "blade.length")
    assert length.expected.value == pytest.approx(150.0, abs=1.5)


def test_starting_again_sets_the_job_aside() -> None:
    session = thin_poll()
    session.take("start-again")
    assert session.standing().state == "set aside"


def long_blade() -> Session:
    """The blade drawn out longer than its limit allows."""
    session = begun(TWO)
    session.done()
    session.done()
    for name, size in (("thickness", "12"), ("width", "34"), ("length", "172")):
        session.read(f"blade.{name}", size, insist=True)
    return session


def short_blade() -> Session:
    """The blade drawn to its section and too short, its metal gone in the fire."""
    session = begun(TWO)
    session.done()
    session.done()
    for name, size in (("thickness", "12"), ("width", "34"), ("length", "120")):
        session.read(f"blade.{name}", size, insist=True)
    return session


EVERY_REMEDY = [
    pytest.param(wrong, remedy.name, id=f"{wrong.__name__}: {remedy.name}")
    for wrong in (short_poll, thin_poll, long_blade, short_blade)
    for remedy in wrong().ways_back()
    if not remedy.again
]


@pytest.mark.parametrize(("wrong", "name"), EVERY_REMEDY)
def test_what_was_told_is_what_stands_and_striking_it_out_brings_everything_back(
    wrong: Callable[[], Session], name: str
) -> None:
    session = wrong()
    before, first, told = session.standing(), session.recipe, offered(session)[name]
    session.take(name)
    taken = session.standing()
    assert (taken.chance, taken.verdict, why(taken)) == (
        told.chance,
        told.verdict,
        reason_text(told.reason),
    )
    session.strike()
    after = session.standing()
    assert after._replace(last_entry=0, last_at="") == before._replace(last_entry=0, last_at="")
    assert session.recipe == first
    assert offered(session)[name] == told


@pytest.mark.parametrize(("wrong", "name"), EVERY_REMEDY)
def test_the_log_replayed_is_the_job_as_it_was_left(wrong: Callable[[], Session], name: str) -> None:
    session = wrong()
    session.take(name)
    if session.standing().step is not None:
        session.heat()
        session.done()
    live = session.standing()
    note = session.note("made anew from the log").entry
    session.strike(note)
    assert session.standing()._replace(last_entry=0, last_at="") == live._replace(last_entry=0, last_at="")


def test_what_is_accepted_in_one_step_is_what_the_next_works_to() -> None:
    session = begun(f"{TWO}  - {{do: square, zone: poll, to: {{side: 28 ±1}}, heats: 1}}\n")
    session.done()
    session.read("poll.side", "24", insist=True)
    session.take("accept-poll-side")
    session.done()
    session.done()
    step = session.standing().step
    assert step is not None
    assert step.number == 4
    assert [(label(one.zone, one.dimension), write(say("{}", one.wanted))) for one in step.targets] == [
        ("poll side", "24 ±1 mm")
    ]


def test_a_remedy_is_taken_by_as_much_of_its_name_as_no_other_begins_with() -> None:
    session = long_blade()
    with pytest.raises(EntryFault, match="More than one way back begins with 'too much'"):
        session.take("too much")
    assert said(session.take("Too much metal: cut")).startswith("Cut ")


def test_a_job_that_moves_on_is_offered_what_fits_it_then() -> None:
    session = thin_poll()
    assert "upset-poll-side" in offered(session)
    session.read("poll.side", "28", insist=True)
    assert "upset-poll-side" not in offered(session)


def test_an_unknown_remedy_is_refused_with_those_there_are() -> None:
    with pytest.raises(EntryFault, match="upset-poll-side"):
        thin_poll().take("wish harder")
    with pytest.raises(EntryFault, match="nothing is wrong"):
        begun(TWO).take("upset-poll-side")


def test_a_job_with_a_remedy_opens_again_as_it_was(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.sqlite") as place:
        session = begun(TWO, place, "poll")
        session.done()
        session.read("poll.side", "24", insist=True)
        session.take("accept-poll-side")
        live = session.standing()
    with shop(tmp_path / "shop.sqlite") as place:
        again = place.open("poll")
        assert again.standing() == live
        assert entry_text(again.history()[-1]).startswith("way back: Accept the poll side")


def test_a_finished_taper_is_cut_by_as_much_as_it_is_too_long() -> None:
    # A round taper from 12 to 6 mm that came out 117 mm long, 100 wanted: 17 mm of its thin end are too much.
    session = begun(
        """
title: Drift pin
pieces:
  pin: {metal: mild steel, stock: {form: round, diameter: 12}}
drawing:
  pin: {form: round taper, diameter: 12 ±0.5, end diameter: 6 ±0.5, length: 100 ±3, take up: length}
steps:
  - {do: taper, zone: pin, form: round taper, to: drawing, heats: 2, check: [length]}
"""
    )
    for name, size in (("pin.diameter", "12"), ("pin.end_diameter", "6"), ("pin.length", "117")):
        session.read(name, size, insist=True)
    session.done()
    told = {way.name: write(way.title) for way in session.ways_back()}
    assert told["too-much-metal-cut-pin-length"] == "Cut 17 mm off the pin's end now"
    session.take("too-much-metal-cut-pin-length")
    sizes = {size.name: size.expected.value for size in session.standing().sizes}
    assert sizes["pin.length"] == pytest.approx(100.0, abs=1.5)
    # The diameter grows by 6 mm over 117, so by 0.9 over 17: where it is cut it is 6.9 mm thick.
    assert sizes["pin.end_diameter"] == pytest.approx(6.9, abs=0.2)
    session.strike()
    assert session.standing().verdict == "off plan"


def test_a_finished_piece_that_is_short_for_its_full_section_is_worked_nearer_to_its_middle_size() -> None:
    session = begun(
        """
title: Strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 16}}
drawing:
  strap: {form: flat, width: 40 ±1, thickness: 8 ±0.5, length: 240 ±12, take up: length}
steps:
  - {do: draw, zone: strap, to: {thickness: 8 ±0.5, width: 40 ±1}, heats: 3}
"""
    )
    for name, size in (("strap.thickness", "8.4"), ("strap.width", "40.5"), ("strap.length", "225.5")):
        session.read(name, size, insist=True)
    session.done()
    assert session.standing().verdict == "off plan"
    ways = {way.name: way for way in session.ways_back()}
    way = ways["work-nearer-strap"]
    assert write(way.title) == "Work the strap width to 40 mm, strap thickness to 8 mm"
    # By volume: 225.5 × 8.4 × 40.5 / (8 × 40) = 239.7.
    assert "longer by about 14 mm" in write(way.changes)
    assert (way.verdict, way.heats) == ("tight", 1), "until it is measured"
    session.take("work-nearer")
    sizes = {size.name: size.expected.value for size in session.standing().sizes}
    assert sizes["strap.length"] == pytest.approx(239.7, abs=1.0)
    assert session.standing().chance == pytest.approx(way.chance)


def test_what_was_accepted_is_not_held_against_the_plan_that_it_left() -> None:
    """A hole drifted too far and accepted: the steps would leave it smaller, but the piece is as it is."""
    path = bundled_recipes() / "cross-peen-hammer.yaml"
    session = shop().begin(path.read_text(encoding="utf-8"), path.name, None)
    while (step := session.standing().step) is not None and step.title != "Drift the eye to the haft":
        session.done()
    session.read("eye.hole_width", "18.9", insist=True)
    way = next(one for one in session.ways_back() if one.name == "accept-eye-hole-width")
    session.take(way.name)
    assert session.standing().chance == pytest.approx(way.chance, abs=0.01)


@pytest.mark.parametrize(
    ("name", "size"),
    [("accept-tip-end-width", "4.01"), ("too-much-metal-leave-tip-length", "99.02")],
)
def test_what_is_let_go_is_never_told_as_nothing(name: str, size: str) -> None:
    # The hook's tip: 3 ±1 wide at its end, 90 ±9 long; 0.01 mm is no figure of the coach's and is not 0 mm.
    job = at_step_of("first-hook", 9)
    job.done()
    job.read("tip.end_width" if "width" in name else "tip.length", size, insist=True)
    way = next(one for one in job.ways_back() if one.name == name)
    assert "a hair over" in write(way.changes, Shown())
    assert write(way.gives, Shown()) == "a hair over"


def test_the_heats_of_a_weld_are_marked_as_those_of_the_step_and_pay_their_scale_once() -> None:
    session = short_poll()
    session.done()
    session.read("poll.side", "28")
    way = offered(session)["weld-on-more-poll"]
    standing = session.standing()
    assert standing.step is not None
    planned = standing.step.heats_planned
    session.take(way.name)
    told = session.standing()
    assert told.step is not None
    assert told.step.heats_planned == planned + way.heats
    assert told.chance == pytest.approx(way.chance, abs=0.02)
    in_the_end = {size.name: size.expected.value for size in told.sizes}
    for _ in range(told.step.heats_planned):
        session.heat()
    for size in session.standing().sizes:
        if size.zone == "poll":
            assert size.expected.value == pytest.approx(in_the_end[size.name], rel=0.005)
    assert session.standing().chance == pytest.approx(way.chance, abs=0.02)
