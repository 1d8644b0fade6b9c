"""Sizes that a calliper reads, typed without their point where the smith has set that."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from coach.bench.shop import Shop
from coach.settings import use
from tests.bench.jobs import at_step_of
from tests.screens.stage import at_the_bench, words_on


@pytest.fixture
def in_tenths(tmp_path: Path) -> Iterator[None]:
    file = tmp_path / "settings.toml"
    file.write_text('whole_numbers = "tenths"\n', encoding="utf-8")
    assert use(file).faults == ()
    yield
    use(None)


async def test_a_heat_with_three_sizes_to_the_tenth_takes_fourteen_keys(shop: Shop, in_tenths: None) -> None:
    job = at_step_of("cold-chisel", 2)  # width 18.5, end width 25, thickness 17 mm, by calliper
    async with at_the_bench(shop, job) as (_, pilot):
        keys = ["f2", *"41", "enter", *"248", "enter", *"184", "enter", "f3"]
        assert len(keys) <= 14
        for key in keys:
            await pilot.press(key)
            await pilot.pause()
        read = {one.name: one.reading for one in job.standing().checks if one.reading is not None}
        told = {name: one.size.value for name, one in read.items() if not one.questioned}
        assert told == {"edge.end_thickness": 4.1, "edge.end_width": 24.8, "edge.width": 18.4}
        assert job.standing().heats == 1
        assert job.history()[-1].kind == "fire"


@pytest.mark.parametrize(
    ("typed", "mm"), [("3=184", 18.4), ("w 184", 18.4), ("3=18.4", 18.4), ("3=2 cm", 20)]
)
async def test_a_size_that_is_named_counts_tenths_and_one_with_point_or_unit_does_not(
    shop: Shop, in_tenths: None, typed: str, mm: float
) -> None:
    job = at_step_of("cold-chisel", 2)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.query_one("#typed").value = typed  # type: ignore[attr-defined]
        await pilot.press("enter")
        await pilot.pause()
        read = next(one.reading for one in job.standing().checks if one.name == "edge.width")
        assert read is not None
        assert read.size.value == pytest.approx(mm)


async def test_the_box_says_so_where_it_is_so_and_nothing_else_counts_tenths(
    shop: Shop, in_tenths: None
) -> None:
    job = at_step_of("cold-chisel", 2)
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "184 is 18.4" in words_on(bench.coach)
    job = at_step_of("cold-chisel", 1)  # marks, which a rule reads
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "184 is 18.4" not in words_on(bench.coach)
        for key in (*"41", "enter"):
            await pilot.press(key)
        await pilot.pause()
        read = next(one.reading for one in job.standing().checks if one.reading is not None)
        assert read.size.value == 41


async def test_without_the_setting_a_whole_number_is_millimetres(shop: Shop) -> None:
    job = at_step_of("cold-chisel", 2)
    async with at_the_bench(shop, job) as (bench, pilot):
        for key in (*"4", "enter"):
            await pilot.press(key)
        await pilot.pause()
        assert "184 is 18.4" not in words_on(bench.coach)
        read = next(one.reading for one in job.standing().checks if one.reading is not None)
        assert read.size.value == 4
