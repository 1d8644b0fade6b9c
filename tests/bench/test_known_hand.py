"""What jobs have taught of the hand goes on to the next, told as an entry that can be struck out."""

from __future__ import annotations

import random
from datetime import UTC, datetime

import pytest

from coach.bench import known_shop
from coach.bench.own_figures import bring_back, leave_out, own_figures
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.carry import export_job
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.shop_known import ShopKnown
from coach.places import bundled_recipes
from coach.quantities import Kind, Words
from coach.telling.of_shop import own_figure_page, own_figures_page
from coach.telling.page import Line, Table
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop, ticking
from tests.worlds.study import forged
from tests.worlds.tools import TOOLS
from tests.worlds.worlds import World

HOOK = bundled_recipes() / "first-hook.yaml"


def begin(at: Shop, name: str | None = None) -> Session:
    return at.begin(HOOK.read_text(encoding="utf-8"), HOOK.name, name)


def forge(job: Session, times: float, seed: int = 1, at: str = "") -> None:
    """Work off a job with a hand that scatters so many times as much as half a half width.

    `at` is when its steps ended, where it is put down later.
    """
    hand = random.Random(seed)
    while job.standing().step is not None:
        for check in job.standing().checks:
            limits = check.wanted.limits if check.wanted is not None else None
            if limits is not None and check.kind is Kind.LENGTH and limits.is_two_sided:
                size = limits.nominal + times * hand.gauss(0.0, limits.width / 4.0)
                job.read(check.name, f"{max(size, 0.5):.2f}", insist=True)
        job.done(at=at)


def handed_on(job: Session) -> HandKnown | None:
    entries = job._entries
    body = entries[1].body if len(entries) > 1 else None
    return body if isinstance(body, HandKnown) else None


def will_pass(job: Session) -> float:
    told = job.standing().will_pass
    assert told is not None
    return told.chance


@pytest.fixture
def true_hand() -> Shop:
    """A shop in which one job was forged with half the usual scatter."""
    at = shop()
    forge(begin(at), 0.5)
    return at


def test_a_true_hand_makes_the_next_job_more_likely_to_pass_and_says_so(true_hand: Shop) -> None:
    usual, job = begin(shop()), begin(true_hand)
    known = handed_on(job)
    assert known is not None
    assert known.scatter < 0.85
    assert will_pass(job) > will_pass(usual) + 0.05
    told = job.begun().did
    assert isinstance(told, Words)
    assert "Entry 2 is what first-hook told of your hand" in write(told)


def test_a_loose_hand_makes_it_less_likely() -> None:
    at = shop()
    forge(begin(at), 2.0)
    usual, job = begin(shop()), begin(at)
    assert will_pass(job) < will_pass(usual)


def test_job_after_job_what_is_known_comes_to_the_hand_there_is() -> None:
    """The hand of a made-up smith that scatters 0.6 times as much as is usual."""
    at = shop()
    for number in range(4):
        forge(begin(at), 0.6, seed=number)
    known = handed_on(begin(at))
    assert known is not None
    assert known.scatter == pytest.approx(0.6, rel=0.3)
    assert known.sizes >= 20


def test_struck_out_the_usual_hand_counts_again(true_hand: Shop) -> None:
    usual, job = begin(shop()), begin(true_hand)
    for entry in [one.number for one in job._entries if isinstance(one.body, ShopKnown)]:
        job.strike(entry)  # what else is known of the shop says nothing here
    job.strike(2)
    assert will_pass(job) == pytest.approx(will_pass(usual))
    job.strike(len(job._entries))  # and back again
    assert will_pass(job) > will_pass(usual) + 0.05


def test_undo_does_not_take_it(true_hand: Shop) -> None:
    job = begin(true_hand)
    job.heat()
    job.strike()
    with pytest.raises(Exception, match="nothing"):
        job.strike()
    assert will_pass(job) > will_pass(begin(shop())) + 0.05


def test_a_job_in_which_little_was_read_teaches_nothing() -> None:
    at = shop()
    job = begin(at)
    job.read("tip.mark", "30.6")
    assert handed_on(begin(at)) is None


def test_what_a_reading_taught_goes_when_it_is_struck_out(true_hand: Shop) -> None:
    first = true_hand.open("first-hook")
    for entry in [one.number for one in first.history() if one.reading is not None]:
        first.strike(entry)
    assert handed_on(begin(true_hand)) is None


def test_so_far_goes_by_the_metal_and_not_by_the_hand(true_hand: Shop) -> None:
    usual, job = begin(shop()), begin(true_hand)
    assert job.standing().chance == pytest.approx(usual.standing().chance, abs=0.01)


def test_it_is_carried_to_another_shop_with_its_job(true_hand: Shop) -> None:
    job = begin(true_hand, "carried")
    there = shop().bring_in(export_job(true_hand.log, "carried"))
    assert handed_on(there) == handed_on(job)
    assert will_pass(there) == pytest.approx(will_pass(job))


def test_a_job_that_cannot_be_reckoned_hinders_no_new_one(
    true_hand: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    def cannot(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(known_shop, "replay", cannot)
    assert handed_on(begin(true_hand)) is None


def test_a_hand_rests_on_its_sizes_and_is_told_so(true_hand: Shop) -> None:
    (hand,) = (one for one in own_figures(true_hand).figures if one.what == "hand")
    assert hand.sizes > 5
    rows = (line for part in own_figures_page(own_figures(true_hand), Shown()).sections for line in part.body)
    cells = [row.cells for table in rows if isinstance(table, Table) for row in table.rows]
    assert next(one for one in cells if one[0].startswith("hand"))[-1] == f"{hand.sizes} sizes"


def test_a_hand_is_not_told_as_part_of_the_way_to_what_its_job_says(true_hand: Shop) -> None:
    (hand,) = (one for one in own_figures(true_hand).figures if one.what == "hand")
    assert hand.shop == hand.jobs[0].said
    assert hand.own_share == 1.0
    lines = [line for part in own_figure_page([hand], Shown()).sections for line in part.body]
    told = next(line.words for line in lines if isinstance(line, Line) and line.label == "own")
    assert told.endswith(f"by {hand.sizes} sizes, each counted as surely as the hand brought it there")


def test_the_sheet_of_a_job_says_of_the_hand_what_the_shop_says(true_hand: Shop) -> None:
    """The sizes behind the hand are as many on the sheet of the job worked last as in the shop's own row."""
    (hand,) = (one for one in own_figures(true_hand).figures if one.what == "hand")
    kept = true_hand.open(hand.jobs[0].job).sheet().hand
    assert kept is not None
    assert (kept.told, kept.taught) == (hand.sizes, hand.shop)


def three_forged(at: Shop) -> None:
    for number in range(3):
        forge(begin(at, f"a{number + 1}"), 2.0, seed=number)


def rows_of_hand(at: Shop) -> list[tuple[str, bool]]:
    return [
        (one.job, bool(one.left_out))
        for own in own_figures(at).figures
        if own.what == "hand"
        for one in own.jobs
    ]


def test_jobs_that_taught_nothing_do_not_push_the_hand_out() -> None:
    at = shop()
    three_forged(at)
    before = own_figures(at)
    begun = [begin(at) for _ in range(5)]
    assert {handed_on(one) for one in begun} == {handed_on(begun[0])}
    assert handed_on(begun[0]) is not None
    begun[0].heat()
    begun[1].read("tip.mark", "30.6")
    assert own_figures(at) == before


def test_the_hand_is_that_of_the_job_worked_last_whatever_else_is_entered() -> None:
    at = shop()
    three_forged(at)
    before = own_figures(at)
    first = at.open("a1")
    first.note("hung over the door")
    first.photograph("door.jpg")
    assert own_figures(at) == before
    leave_out(at, "scale", "a1")
    assert own_figures(at) != before
    bring_back(at, "scale", "a1")
    assert own_figures(at) == before
    assert rows_of_hand(at) == [("a3", False)]


def test_what_is_read_or_struck_of_a_job_that_is_done_changes_no_hand() -> None:
    at = shop()
    three_forged(at)
    before, begun = rows_of_hand(at), handed_on(begin(at))
    first = at.open("a1")
    first.read("shank.length", "100.5", insist=True)
    assert (rows_of_hand(at), handed_on(begin(at))) == (before, begun)
    first.strike()
    assert (rows_of_hand(at), handed_on(begin(at))) == (before, begun)


def test_the_hand_goes_by_the_hours_of_the_work_and_not_by_those_of_its_entry() -> None:
    """Two jobs put down in the evening, that first which was worked last."""
    at = Shop(":memory:", ticking(datetime(2026, 3, 2, 20, 0, tzinfo=UTC)))
    for name, begun, hour in (("later", "10:00", "11:30"), ("sooner", "08:00", "09:30")):
        forge(at.begin(HOOK.read_text(encoding="utf-8"), HOOK.name, name, at=begun), 1.5, at=hour)
    assert rows_of_hand(at) == [("later", False)]


def in_the_order_of_work(names: dict[str, float]) -> HandKnown | None:
    """What a new job begins with after jobs that were begun, worked and put down one after the other."""
    at = shop()
    for seed, (name, times) in enumerate(names.items()):
        forge(begin(at, name), times, seed=seed)
    return handed_on(begin(at))


def test_a_day_on_paper_that_is_entered_later_counts_for_the_hand_by_the_hours_of_its_work() -> None:
    at = Shop(":memory:", ticking(datetime(2026, 3, 2, 20, 0, tzinfo=UTC)))
    text = HOOK.read_text(encoding="utf-8")
    days = (("last", 0, 1.5, "12:00", "13:30"), ("first", 1, 0.5, "06:00", "07:30"))
    for name, seed, times, begun, hour in days:
        forge(at.begin(text, HOOK.name, name, at=begun), times, seed=seed, at=hour)
    alone = in_the_order_of_work({"last": 1.5})
    known = handed_on(begin(at))
    assert known is not None
    assert alone is not None
    assert known.job == "last"
    assert known.sizes == pytest.approx(2 * alone.sizes, abs=1)
    assert known.scatter < alone.scatter, "the finer hand of the day on paper counts with the other"
    assert rows_of_hand(at) == [("last", False)]


def test_jobs_that_were_forged_side_by_side_both_teach_the_hand() -> None:
    """Two are begun before either is worked: the later one knows nothing of the other when it begins."""
    at = shop()
    both = {name: begin(at, name) for name in ("one", "other")}
    for seed, (name, job) in enumerate(both.items()):
        forge(job, 1.5 if name == "one" else 0.5, seed=seed)
    assert handed_on(both["other"]) is None
    known, in_turn = handed_on(begin(at)), in_the_order_of_work({"one": 1.5, "other": 0.5})
    assert known is not None
    assert in_turn is not None
    assert (known.job, known.sizes) == (in_turn.job, in_turn.sizes)
    assert known.scatter == pytest.approx(in_turn.scatter, rel=0.01), "but for the shop's other figures"
    write(leave_out(at, "hand", "one"))
    alone = handed_on(begin(at))
    assert alone is not None
    assert alone.sizes < 15, "of one job alone"


def test_the_hand_that_all_of_them_told_is_left_out_and_comes_back() -> None:
    at = shop()
    three_forged(at)
    before = own_figures(at)
    leave_out(at, "hand", "")
    assert rows_of_hand(at) == [("a3", True), ("a2", True), ("a1", True)]
    assert handed_on(begin(at)) is None
    (hand,) = (one for one in own_figures(at).figures if one.what == "hand")
    assert hand.next_job == hand.published
    bring_back(at, "hand", "")
    assert own_figures(at) == before


def test_one_job_left_out_of_the_hand_still_has_its_row() -> None:
    at = shop()
    three_forged(at)
    before = own_figures(at)
    leave_out(at, "hand", "a3")
    assert rows_of_hand(at) == [("a2", False), ("a3", True)]
    bring_back(at, "hand", "a3")
    assert own_figures(at) == before


def without(job: str) -> Shop:
    """A shop in which a job was left out of the hand before another one was begun."""
    at = shop()
    for number in range(3):
        name = f"a{number + 1}"
        forge(begin(at, name), 2.0, seed=number)
        if name == job:
            leave_out(at, "hand", name)
    return at


@pytest.mark.parametrize("job", ["a1", "a2", "a3"])
def test_a_hand_left_out_that_others_began_with_is_as_if_it_had_never_been_handed_on(job: str) -> None:
    at = shop()
    three_forged(at)
    before = own_figures(at), handed_on(begin(at))
    leave_out(at, "hand", job)
    assert handed_on(begin(at)) == handed_on(begin(without(job))) != before[1]
    assert own_figures(at).figures == own_figures(without(job)).figures
    bring_back(at, "hand", job)
    assert (own_figures(at), handed_on(begin(at))) == before


def test_which_hands_are_reckoned_anew_without_one_is_said() -> None:
    at = shop()
    three_forged(at)
    left_out = "is left out of what new jobs begin with"
    assert write(leave_out(at, "hand", "a1")) == (
        f"What a1 told of the hand {left_out}; what a3, a2 told after it is reckoned anew"
    )
    told = write(leave_out(at, "hand", "a2"))
    assert told == f"What a2 told of the hand {left_out}; what a3 told after it is reckoned anew"
    assert write(leave_out(at, "hand", "a3")) == f"What a3 told of the hand {left_out}"
    assert handed_on(begin(at)) is None


def test_a_hand_that_cannot_be_reckoned_anew_stays_in_and_it_is_said_through_which(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A job so long ago that it is no longer looked at for what it taught."""
    at = shop()
    three_forged(at)
    before = handed_on(begin(at))
    monkeypatch.setattr(known_shop, "_MOST_LOOKED_AT", 2)
    assert write(leave_out(at, "hand", "a1")) == (
        "What a1 told of the hand is left out, but stays in what new jobs begin with through a3, a2, "
        "begun with it: to be without it, leave out the hand of each of these too"
    )
    assert handed_on(begin(at)) == before


def test_jobs_of_few_sizes_teach_the_hand_together() -> None:
    at = shop()
    for number in range(3):
        forged(TOOLS[2], number, World(scatter=1.7), 7, at)
    first, second, third = (at.open(name) for name in at.log.jobs())
    assert handed_on(first) is None
    known, more = handed_on(second), handed_on(third)
    assert known is not None
    assert more is not None
    assert known.sizes < 5, "each of them leaves only a few sizes that tell of the hand"
    assert more.sizes > known.sizes
    assert more.job == second.job
