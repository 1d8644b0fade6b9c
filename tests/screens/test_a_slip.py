"""A reading that was told to be impossible and came twice: to strike it out is the first way back."""

from __future__ import annotations

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.verdict import Verdict
from coach.telling.to_go import to_go
from coach.telling.ways_back import first_of_all, ways_back_page
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.screens.stage import answer_on, at_the_bench, words_on

_SLIP = "edge length 24.6 mm stands, where 41.6 mm at least was possible."


def _drawn_out() -> Session:
    chisel = at_step_of("cold-chisel", 2)
    chisel.heat()
    for name, size in (("end_thickness", "6.2"), ("end_width", "22"), ("width", "19.5")):
        chisel.read(f"edge.{name}", size)
    return chisel


async def test_an_impossible_reading_typed_twice_is_told_as_a_slip_with_its_key(shop: Shop) -> None:
    """Set the job aside came first, then a mark 21 mm longer on a bar that was drawn already."""
    chisel = _drawn_out()
    async with at_the_bench(shop, chisel) as (bench, pilot):
        await pilot.press(*"4=24.6", "enter")
        assert "A slip?" not in words_on(bench.coach), "it is questioned, and counts for nothing"
        await pilot.press(*"4=24.6", "enter")
        assert answer_on(bench.coach).endswith("A slip? F8 strikes it out.")
        words = words_on(bench.coach)
        assert f"A slip? F8 strikes it out: {_SLIP}" in words
        assert words.index("A slip? F8 strikes it out:") < words.index("*1")
        await pilot.press("asterisk")
        words = words_on(bench.coach)
        assert words.index(f"A slip? F8 strikes it out: {_SLIP}") < words.index("Set this job aside")
        await pilot.press("escape", "f8")
        assert "A slip?" not in words_on(bench.coach)
    assert chisel.standing().verdict == "on plan"


def test_the_command_names_how_a_slip_is_struck_out() -> None:
    chisel = _drawn_out()
    for _ in range(2):
        chisel.read("edge.length", "24.6")
    first = ways_back_page(chisel.standing(), chisel.ways_back(), Shown(chisel.system)).sections[0]
    assert f"A slip? `coach strike` strikes it out: {_SLIP}" in str(first)
    chisel.note("the calliper had slipped")
    assert "with its number" in first_of_all(chisel.standing(), Shown(chisel.system))
    chisel.heat()
    assert not first_of_all(chisel.standing(), Shown(chisel.system)), "a heat has worked it since"


async def test_a_refused_reading_keeps_its_sign_once_a_heat_has_worked_the_size(shop: Shop) -> None:
    chisel = _drawn_out()
    chisel.read("edge.length", "24.6")
    chisel.heat()
    rows = {one.dimension: one for one in chisel.standing().checks}
    assert to_go(rows["length"], Shown(chisel.system)).words == "never counted"
    assert to_go(rows["width"], Shown(chisel.system)).words == "old: read again"
    async with at_the_bench(shop, chisel) as (bench, _):
        assert "24.6 ?" in words_on(bench.coach)
        assert "19.5 before" in words_on(bench.coach)


async def test_a_temper_is_not_told_to_need_no_heat(shop: Shop) -> None:
    chisel = at_step_of("cold-chisel", 10)
    async with at_the_bench(shop, chisel) as (bench, pilot):
        await pilot.press("f3")
        assert "needs no forge fire, only its own low heat" in answer_on(bench.coach)


async def test_a_finished_job_is_closed_by_the_first_choice(shop: Shop) -> None:
    """There is nothing to rest from, and F10 with Enter stayed at the bench."""
    chisel = at_step_of("cold-chisel", 12)
    chisel.done()
    async with at_the_bench(shop, chisel) as (bench, pilot):
        assert "there n says what to do better" in words_on(bench.coach)
        await pilot.press("f10")
        await pilot.pause()
        words = words_on(bench.coach)
        assert words.index("▸ Close the coach") < words.index("Stay at the bench")


async def test_degrees_typed_as_the_minutes_of_a_soak_are_asked_about(shop: Shop) -> None:
    """280 at the soak of a temper was 4 h 40 min, and nobody asked."""
    chisel = at_step_of("cold-chisel", 10)
    async with at_the_bench(shop, chisel) as (bench, pilot):
        await pilot.press(*"2=280", "enter")
        assert answer_on(bench.coach).endswith("Was 280 its temperature? F8, then 1=280.")
        await pilot.press("f8", *"1=280", "enter", *"2=90", "enter")
        assert "Was 90 its temperature?" not in words_on(bench.coach)
    heat = next(one for one in chisel.standing().checks if one.dimension == "temperature")
    assert heat.verdict is Verdict.GOOD


async def test_minutes_that_would_be_a_heat_off_the_wanted_one_are_asked_about_too(shop: Shop) -> None:
    """340 typed at the soak's row was five hours and forty minutes, and good."""
    chisel = at_step_of("cold-chisel", 10)
    async with at_the_bench(shop, chisel) as (bench, pilot):
        await pilot.press(*"2=340", "enter")
        assert answer_on(bench.coach).endswith("Was 340 its temperature? F8, then 1=340.")
        await pilot.press("f8", *"2=600", "enter")
        assert "its temperature?" not in words_on(bench.coach)
