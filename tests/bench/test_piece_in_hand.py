"""Several pieces in one fire: a line goes over to the next, and heats and readings go to the one in hand."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from coach.bench.entering import EntryFault
from coach.bench.file_amended import MOVED
from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.verdict import PlanState
from coach.recipe.changing import CannotChange
from tests.bench.jobs import shop as a_shop
from tests.told import said

PINS = """\
recipe: Pin
make: 3
pieces:
  pin:
    metal: mild steel
    bar: round 16
    zones:
      shank: round 12 ±0.5, long 120 ±8
      head: round 16, long 20 ±2
steps:
  - mark out: pin
  - draw: shank, round 12, 3 heats, at orange
  - straighten: shank, bow at most 1, 1 heat, at orange
"""


@pytest.fixture
def shop() -> Iterator[Shop]:
    with a_shop() as opened:
        yield opened


@pytest.fixture
def pins(shop: Shop) -> Session:
    """Three pins that are marked out, the first in hand."""
    session = shop.begin(PINS, "pin.yaml")
    for _ in range(3):
        session.done()
    return session


def in_hand(session: Session) -> tuple[str, int]:
    """The zone in hand, and the heats that it has had in this step."""
    step = session.standing().step
    assert step is not None
    return session.recipe.steps[step.number - 1].zones[0], session._state.heats


def test_each_heat_and_reading_goes_to_the_pin_in_hand_and_waits_with_it(pins: Session) -> None:
    pins.heat()
    pins.read("pin 1 shank.diameter", "14")
    pins.change("next piece")
    assert in_hand(pins) == ("pin 2 shank", 0)
    pins.heat()
    pins.heat()
    pins.change("next piece")
    assert in_hand(pins) == ("pin 3 shank", 0)
    pins.heat()
    pins.change("next piece")
    assert in_hand(pins) == ("pin 1 shank", 1)
    now = pins._state.now
    assert now is not None
    assert now.size("pin 1 shank", "diameter").value == pytest.approx(14.0, abs=0.3)
    pins.change("next piece")
    assert in_hand(pins) == ("pin 2 shank", 2)


def test_the_metal_is_what_it_is_when_one_is_forged_after_another(shop: Shop) -> None:
    """The order of work on pieces apart changes nothing of what is believed of them in the end."""
    one_by_one = shop.begin(PINS, "pin.yaml", name="apart")
    turns = shop.begin(PINS, "pin.yaml", name="turns")
    for session in (one_by_one, turns):
        for _ in range(3):
            session.done()
    for number in (1, 2, 3):
        for _ in range(3):
            one_by_one.heat()
        one_by_one.read(f"pin {number} shank.diameter", "12.1")
        one_by_one.done()
    for number in (1, 2, 3, 1, 2, 3, 1, 2, 3):
        assert in_hand(turns)[0] == f"pin {number} shank"
        turns.heat()
        if in_hand(turns)[1] == 3:
            turns.read(f"pin {number} shank.diameter", "12.1")
            turns.done()
        else:
            turns.change("next piece")
    ends = [
        {(one.zone, one.dimension): one.spare.value for one in session.standing().spares}
        for session in (one_by_one, turns)
    ]
    assert ends[1] == pytest.approx(ends[0], abs=0.05)
    assert turns.standing().chance == pytest.approx(one_by_one.standing().chance, abs=0.01)


def test_it_is_shown_as_a_step_that_is_moved_and_struck_out_again(pins: Session) -> None:
    pins.heat()
    told = pins.change_told("next piece")
    assert [(one.number, one.what) for one in told.changes.ahead] == [(4, MOVED)]
    pins.change("next piece")
    pins.strike()
    assert in_hand(pins) == ("pin 1 shank", 1)


def test_what_was_entered_is_there_when_the_job_is_opened_again(shop: Shop, pins: Session) -> None:
    pins.heat()
    pins.change("next piece")
    pins.heat()
    again = shop.open(pins.job)
    again.change("next piece")
    assert in_hand(again) == ("pin 3 shank", 0)
    again.change("next piece")
    assert in_hand(again) == ("pin 1 shank", 1)


def test_where_no_other_piece_has_that_step_ahead_it_says_so(shop: Shop) -> None:
    session = shop.begin(PINS.replace("make: 3\n", ""), "pin.yaml")
    session.done()
    with pytest.raises(CannotChange, match="No other piece"):
        session.change("next piece")


def test_on_one_piece_what_is_begun_is_not_left_for_work_in_between(shop: Shop) -> None:
    session = shop.begin(PINS.replace("make: 3\n", ""), "pin.yaml")
    session.done()
    session.heat()
    with pytest.raises(CannotChange, match="is begun"):
        session.change("put off 2")


def told(session: Session, name: str) -> float:
    """What a size of the drawing is told to come out at, mm."""
    (size,) = [one for one in session.standing().sizes if one.name == name]
    return size.expected.value


def test_a_piece_that_waits_is_told_as_it_lies_there(pins: Session) -> None:
    """One that is forged too thin is off plan, whichever of them is in hand."""
    for _ in range(3):
        pins.heat()
    for _ in range(2):
        pins.read("pin 1 shank.diameter", "9", insist=True)
    before = pins.standing()
    was = told(pins, "pin 1 shank.diameter")
    pins.change("next piece")
    after = pins.standing()
    assert after.verdict is before.verdict is PlanState.OFF_PLAN
    assert told(pins, "pin 1 shank.diameter") == pytest.approx(was, abs=0.05)
    assert after.chance == pytest.approx(before.chance, abs=0.01)
    pins.change("next piece")
    pins.change("next piece")
    assert pins.standing().verdict is PlanState.OFF_PLAN


def test_what_is_read_of_a_piece_that_waits_goes_to_it(pins: Session) -> None:
    for _ in range(3):
        pins.heat()
    pins.change("next piece")
    answer = pins.read("pin 1 shank.diameter", "12.1")
    assert not answer.bad_news
    assert told(pins, "pin 1 shank.diameter") == pytest.approx(12.1, abs=0.2)
    pins.change("next piece")
    pins.change("next piece")
    assert in_hand(pins) == ("pin 1 shank", 3)
    assert pins.standing().checks[0].reading is not None


def test_metal_that_is_lost_of_a_piece_that_waits_is_lost_to_it(pins: Session) -> None:
    """Round 12, so that 20 mm of it are 20 · π/4 · 144 = 2262 mm³."""
    for _ in range(3):
        pins.heat()
    pins.read("pin 1 shank.diameter", "12")
    now = pins._state.now
    assert now is not None
    whole = now.volume_mm3("pin 1 shank")
    pins.change("next piece")
    pins.lose(LossAsked("pin 1 shank", "20 mm", "burnt"))
    for _ in range(3):
        now = pins._state.now
        assert now is not None
        assert whole - now.volume_mm3("pin 1 shank") == pytest.approx(2262.0, rel=0.04)
        pins.change("next piece")


HOOKS = """\
recipe: Hook
make: 3
pieces:
  hook:
    metal: mild steel
    bar: square 10
    zones:
      tip: square 8 ±0.8 to 3 ±1, long 90 ±9
      plate: 16 ±2 x 5 ±0.8, long 44 ±4
steps:
  - mark out: hook
  - taper: tip, 3 heats
  - cut: plate, 1 heat
  - spread: plate, flat, thick 5 ±0.8, long 44 ±4, 2 heats
"""


def test_the_next_hook_waits_inside_the_bar_until_the_one_before_it_is_cut_off(shop: Shop) -> None:
    session = shop.begin(HOOKS, "hook.yaml")
    assert "hook 1 up to step 5, which cuts it off" in said(session.begun())
    for _ in range(3):
        session.done()
    assert in_hand(session) == ("hook 1 tip", 0)
    assert not session.has_next_piece
    with pytest.raises(CannotChange, match="hook 2 lies inside the bar until step 5 cuts hook 1 off"):
        session.change("next piece")
    with pytest.raises(CannotChange, match="inside the bar until step"):
        session.change("next 6")
    session.done()
    session.done()
    assert in_hand(session) == ("hook 2 tip", 0)


def test_what_lies_inside_the_bar_has_no_end_that_can_be_lost(shop: Shop) -> None:
    session = shop.begin(HOOKS, "hook.yaml")
    for _ in range(3):
        session.done()
    assert in_hand(session) == ("hook 1 tip", 0)
    for amount in ("5", "3 g"):
        with pytest.raises(EntryFault, match=r"hook 2 tip lies inside the bar .* is the hook 1 tip now"):
            session.lose(LossAsked("hook 2 tip", amount, "burnt"))
    session.lose(LossAsked("hook 1 tip", "5", "burnt"))
    session.done()
    session.done()
    session.lose(LossAsked("hook 2 tip", "5", "burnt"))


def test_hooks_that_are_cut_off_may_change_hands(shop: Shop) -> None:
    session = shop.begin(HOOKS, "hook.yaml")
    for _ in range(9):
        session.done()
    assert in_hand(session) == ("hook 1 plate", 0)
    session.change("next piece")
    assert in_hand(session) == ("hook 2 plate", 0)


def test_a_job_begun_in_another_order_is_written_out_in_its_own(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    from coach.recipe import spelling, step_rows

    def each_in_turn(rows: list[step_rows.StepRow], _: object) -> Iterator[step_rows.Turn]:
        return (step_rows.Turn(at, (who,)) for at, row in enumerate(rows) for who in range(len(row.pieces)))

    with monkeypatch.context() as then:
        then.setattr(spelling, "turns", each_in_turn)
        session = shop.begin(HOOKS, "hook.yaml")
        job = session.job
    again = shop.open(job)
    titles = [step.title for step in again.recipe.steps]
    assert titles[3:5] == ["Taper the hook 1 tip", "Taper the hook 2 tip"]
    from coach.recipe.reader import read_recipe

    assert [step.title for step in read_recipe(again.forged(), "hook.yaml").steps] == titles
    again.change("hook 1 plate.length=45 ±4")
    assert [step.title for step in again.recipe.steps] == titles


def test_a_size_without_its_piece_is_that_of_the_piece_in_hand(shop: Shop) -> None:
    session = shop.begin(HOOKS, "hook.yaml")
    session.done()
    answer = session.read("tip.mark", "93.4")
    assert said(answer).startswith("hook 2 tip mark 93.4 mm")
    assert said(session.read("plate mark", "128.6")).startswith("hook 2 plate mark 128.6 mm")
    with pytest.raises(EntryFault, match="There is no zone called 'tup'"):
        session.read("tup.mark", "93.4")


def test_a_drawing_is_changed_in_all_pieces_at_once_and_in_several_ways_in_one_line(shop: Shop) -> None:
    session = shop.begin(HOOKS, "hook.yaml")
    session.change("plate.length=46 ±4; tip.length=95 ±9")
    drawn = session.plan.as_written.drawing
    assert {drawn[f"hook {one} plate"].limits["length"].nominal for one in (1, 2, 3)} == {46.0}
    assert {drawn[f"hook {one} tip"].limits["length"].nominal for one in (1, 2, 3)} == {95.0}


def test_each_of_several_changes_is_of_the_recipe_as_those_before_it_leave_it(shop: Shop) -> None:
    session = shop.begin(HOOKS, "hook.yaml")
    session.change("again 10; heats 11 = 4")
    again = session.recipe.steps[10]
    assert (again.title, again.heats) == (f"{session.recipe.steps[9].title}, again", 4)
