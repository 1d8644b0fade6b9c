"""The ways back: shown for a job gone wrong, taken with a second Enter, struck out like any entry."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events
from textual.widgets import Input

from coach.bench.answer import Answer
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.standing import Standing
from coach.forms import label
from coach.quantities import Refusal
from coach.quantities.words import say
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen
from coach.screens.remedies import RemediesScreen
from coach.screens.reply import NO_SIZE_HERE
from coach.screens.shop import ShopScreen
from coach.telling.words import write
from tests.screens.stage import (
    COMMON,
    PEG,
    ROOMY,
    SMALL,
    a_shop,
    answer_on,
    at_the_bench,
    resized,
    screen_text,
    settled,
    showing,
    words_on,
)
from tests.told import entry_text


@pytest.fixture
def thin(job: Session) -> Session:
    """The peg with its point drawn too thin."""
    job.read("point.side", "6.8", insist=True)
    return job


@pytest.fixture
def thin_shank(job: Session) -> Session:
    """The peg with its shank drawn too thin, a step behind it."""
    job.done()
    job.read("shank.side", "8", insist=True)
    return job


def targets(standing: Standing) -> tuple[tuple[str, str], ...]:
    assert standing.step is not None
    return tuple(
        (label(one.zone, one.dimension), write(say("{}", one.wanted))) for one in standing.step.targets
    )


async def test_a_bench_off_plan_turns_to_its_ways_back_once(shop: Shop, thin: Session) -> None:
    ways = thin.ways_back()
    assert len(ways) > 1
    async with at_the_bench(shop, thin) as (bench, pilot):
        for number, way in enumerate(ways, 1):
            assert f"{number} {write(way.title)}" in words_on(bench.coach)
        await pilot.press("tab")
        await pilot.pause()
        assert write(ways[0].title) not in words_on(bench.coach)
        await pilot.press("f6", *"thin", "enter")  # an entry brings nothing to the front a second time
        await pilot.pause()
        assert write(ways[0].title) not in words_on(bench.coach)


async def test_a_bench_on_plan_says_nothing_of_ways_back(shop: Shop, job: Session) -> None:
    job.read("point.side", "8")
    async with at_the_bench(shop, job) as (bench, _):
        assert "back:" not in words_on(bench.coach)


@pytest.mark.parametrize("pressed", ["asterisk", "ctrl+r"])
async def test_the_star_shows_each_way_with_its_chance_heats_soundness_and_change(
    shop: Shop, thin: Session, pressed: str
) -> None:
    async with at_the_bench(shop, thin, size=(160, 48)) as (bench, pilot):
        await pilot.press(pressed)
        await pilot.pause()
        assert showing(bench.app) is RemediesScreen
        words = words_on(bench.coach)
        for way in thin.ways_back():
            for told in (write(way.title), way.soundness.value, write(way.changes), f"✓ {way.verdict}"):
                assert told in words
        assert "2 extra heats" in words
        assert "buckles" not in words  # the caution of a way that is not chosen
        await pilot.press("down")
        assert "Caution" in words_on(bench.coach)
        assert "buckles" in words_on(bench.coach)
        await pilot.press("escape")
        assert showing(bench.app) is BenchScreen
        assert bench.query_one(Input).value == ""


async def test_one_enter_asks_and_the_second_takes_it_and_undo_brings_the_old_targets_back(
    shop: Shop, thin: Session
) -> None:
    before, entries = targets(thin.standing()), thin.standing().last_entry
    best = thin.ways_back()[0]
    assert best.name == "accept-point-side"
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        await pilot.press("enter")
        assert answer_on(bench.coach) == f"? {write(best.title)}: Enter again takes it, Esc does not."
        assert thin.standing().last_entry == entries
        await pilot.press("enter")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen
        assert answer_on(bench.coach).startswith(f"{write(best.title)}: taken. ")
        assert targets(thin.standing()) != before
        assert thin.standing().verdict == "on plan"
        await pilot.press("f8")
        assert answer_on(bench.coach).endswith(f"Struck out: way back: {write(best.title)}.")
    assert targets(thin.standing()) == before
    assert thin.standing().verdict == "off plan"


async def test_escape_or_another_choice_takes_the_question_back(shop: Shop, thin: Session) -> None:
    entries = thin.standing().last_entry
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        await pilot.press("enter", "escape")
        assert showing(bench.app) is RemediesScreen
        assert answer_on(bench.coach).startswith("Enter takes the chosen one")
        await pilot.press("enter", "down")
        assert answer_on(bench.coach).startswith("Enter takes the chosen one")
        await pilot.press("enter")
        assert answer_on(bench.coach).startswith("? Upset the point")
        await pilot.press("escape", "escape")
        assert showing(bench.app) is BenchScreen
    assert thin.standing().last_entry == entries


async def test_starting_again_is_asked_plainly_and_goes_to_the_shop(shop: Shop, thin_shank: Session) -> None:
    async with at_the_bench(shop, thin_shank) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        await pilot.press("end", "enter")
        assert "This job is set aside as it is" in answer_on(bench.coach)
        assert thin_shank.standing().state == "under way"
        await pilot.press("enter")
        await pilot.pause()
        assert showing(bench.app) is ShopScreen
        assert "Begin a new one by the same recipe: Tent peg." in answer_on(bench.coach)
    assert thin_shank.standing().state == "set aside"


async def test_a_touch_chooses_and_a_second_touch_takes(shop: Shop, thin: Session) -> None:
    second = write(thin.ways_back()[1].title)
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        on_it = (5, next(y for y, line in enumerate(screen_text(bench.coach).split("\n")) if second in line))
        await pilot.click(offset=on_it)
        await pilot.pause()
        assert answer_on(bench.coach).startswith(f"? {second}")
        await pilot.click(offset=on_it)
        await pilot.pause()
        assert showing(bench.app) is BenchScreen
    assert entry_text(thin.history()[-1]).startswith(f"way back: {second}")


async def test_a_star_in_a_note_is_written_down(shop: Shop, thin: Session) -> None:
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("f6", "asterisk", "a", "enter")
        assert showing(bench.app) is BenchScreen
    assert thin.standing().notes[-1].text == "*a"


async def test_what_another_window_enters_makes_the_list_anew(
    shop: Shop, thin: Session, tmp_path: Path
) -> None:
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        ways = bench.app.screen
        assert isinstance(ways, RemediesScreen)
        await pilot.press("enter")
        with a_shop(tmp_path) as other:
            other.open(thin.job).strike()
        ways.catch_up()
        await pilot.pause()
        assert "Nothing is wrong that needs a way back." in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen


async def test_a_way_that_another_window_closed_is_refused_and_the_list_is_made_anew(
    shop: Shop, thin: Session, tmp_path: Path
) -> None:
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        with a_shop(tmp_path) as other:
            other.open(thin.job).strike()
        await pilot.press("enter", "enter")
        await pilot.pause()
        assert showing(bench.app) is RemediesScreen
        assert answer_on(bench.coach).startswith("! ")
        assert "Nothing is wrong that needs a way back." in words_on(bench.coach)
    assert thin.history()[-1].kind == "struck"


async def test_why_a_way_is_refused_can_be_read_though_others_are_left(
    shop: Shop, thin: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    def closed(session: Session, name: str) -> Answer:
        raise Refusal("this way is closed")

    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        monkeypatch.setattr(Session, "take", closed)
        await pilot.press("down", "enter", "enter")
        await pilot.pause()
        assert answer_on(bench.coach) == "! this way is closed"


async def test_off_plan_without_a_way_back_is_not_told_as_well(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("coach.ledger.remedies.remedies", lambda: ())
    session = shop.begin(PEG.replace("bar: square 12", "bar: square 12, long 20"), "short.yaml")
    assert session.standing().verdict == "off plan"
    assert session.ways_back() == ()
    async with at_the_bench(shop, session) as (bench, pilot):
        await pilot.pause()
        assert "* ways back" not in words_on(bench.coach), "a key that leads nowhere is not put forward"
        await pilot.press("asterisk")
        await pilot.pause()
        assert "No way back is known as the job stands." in words_on(bench.coach)


async def test_a_number_chooses_a_way_and_takes_nothing_by_itself(shop: Shop, thin: Session) -> None:
    before = thin.standing().last_entry
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        await pilot.press("2", "enter")
        await pilot.pause()
        assert "Enter again takes it" in answer_on(bench.coach)
        assert answer_on(bench.coach).startswith(f"? {write(thin.ways_back()[1].title)}")
        assert thin.standing().last_entry == before


@pytest.mark.parametrize("size", [COMMON, (120, 40)])
async def test_beside_the_ways_back_a_caution_is_told_once_at_any_window(
    shop: Shop, thin: Session, size: tuple[int, int]
) -> None:
    async with at_the_bench(shop, thin, size=size) as (bench, pilot):
        await settled(bench.coach, pilot)
        assert words_on(bench.coach).count("Hot scale flies") == 1


async def test_the_chosen_way_has_the_sign_at_its_first_row_and_a_resize_keeps_it(
    shop: Shop, thin: Session
) -> None:
    """Colour is not the only sign of it, however many rows each way takes."""
    second = " ".join(write(thin.ways_back()[1].title).split()[:2])
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await settled(bench.coach, pilot)
        await pilot.press("down")
        await pilot.pause()
        for width, height in (COMMON, ROOMY, SMALL, COMMON):
            await resized(bench.coach, pilot, width, height)
            await pilot.pause()
            signed = [row for row in screen_text(bench.coach).splitlines() if "▸" in row]
            assert [" ".join(row.split()[:4]) for row in signed] == [f"▸ 2 {second}"], signed


def typed(app: CoachApp, keys: str) -> None:
    """Every key at once, as a gauge types, or a hand that does not look up."""
    names = {"\r": "enter", ".": "full_stop"}
    for sign in keys:
        app.post_message(events.Key(names.get(sign, sign), sign))


@pytest.mark.parametrize("burst", ["278\r90\r1\r", "1\r7.9\r95\r", "1\r\x08 1\r1\r", "8\r8.2mm\r2\r"])
async def test_sizes_that_are_typed_at_the_ways_back_take_none(shop: Shop, thin: Session, burst: str) -> None:
    """A hand that does not look up, or a gauge, goes on typing sizes: none is a way that is meant."""
    entries = thin.standing().last_entry
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        typed(bench.coach, burst)
        await settled(bench.coach, pilot)
        assert showing(bench.app) is RemediesScreen
    assert thin.standing().last_entry == entries


@pytest.mark.parametrize("size", ["278", "7.9", "95", "0.5", "9", "12mm"])
async def test_a_size_typed_at_the_ways_back_is_told_to_be_typed_at_the_bench(
    shop: Shop, thin: Session, size: str
) -> None:
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk", "enter")
        await pilot.pause()
        typed(bench.coach, f"{size}\r")
        await settled(bench.coach, pilot)
        assert answer_on(bench.coach) == f"! {NO_SIZE_HERE}"
        await pilot.press("enter")  # what was asked before it is asked once more, and not taken
        assert "Enter again takes it" in answer_on(bench.coach)
        assert showing(bench.app) is RemediesScreen


async def test_a_size_typed_where_nothing_is_wrong_does_not_close_the_ways_back(
    shop: Shop, job: Session
) -> None:
    job.read("point.side", "8")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        typed(bench.coach, "16\r")
        await settled(bench.coach, pilot)
        assert showing(bench.app) is RemediesScreen
        assert answer_on(bench.coach) == f"! {NO_SIZE_HERE}"
        await pilot.press("enter")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen


@pytest.mark.parametrize("between", ["f4", "f2", "f11", "home", "pagedown", "space", "1"])
async def test_any_other_key_takes_back_what_was_asked(shop: Shop, thin: Session, between: str) -> None:
    """What is armed stands on the screen: once another sentence has its place, Enter asks anew."""
    entries = thin.standing().last_entry
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        await pilot.press("enter")
        assert "Enter again takes it" in answer_on(bench.coach)
        await pilot.press(between)
        await pilot.pause()
        assert "Enter again takes it" not in answer_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(bench.app) is RemediesScreen
        assert "Enter again takes it" in answer_on(bench.coach)
    assert thin.standing().last_entry == entries
