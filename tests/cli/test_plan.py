"""A plan on paper: it fits the page, and its sizes add up."""

from __future__ import annotations

from itertools import takewhile
from pathlib import Path
from typing import Any

import pytest

from coach.telling.writing import write_length
from tests.cli.conftest import Coach

RECIPES = ["first-hook", "carpenters-adze"]
SHELF = sorted(path.stem for path in (Path(__file__).parents[2] / "recipes").glob("*.yaml"))
PAGE = 80


def plan(coach: Coach, recipe: str) -> Any:
    said = coach("plan", recipe, "--json")
    assert said.err == ""
    return said.values


@pytest.mark.parametrize("recipe", RECIPES)
@pytest.mark.parametrize("units", ["--mm", "--in"])
def test_a_plan_fits_the_page(coach: Coach, recipe: str, units: str) -> None:
    lines = coach("plan", recipe, units).out.splitlines()
    assert len(lines) > 50
    assert [line for line in lines if len(line) > PAGE] == []
    assert "\x1b" not in "".join(lines)


@pytest.mark.parametrize("recipe", RECIPES)
def test_marks_follow_one_another_to_the_end_of_the_piece(coach: Coach, recipe: str) -> None:
    for piece in plan(coach, recipe)["pieces"]:
        ends = 0.0
        for zone, mark in zip(piece["zones"], piece["marks"], strict=True):
            ends += zone["length"]["value"]
            assert mark["ends"] == zone["zone"]
            assert mark["at"]["value"] == pytest.approx(ends)
        assert piece["length"]["value"] == pytest.approx(ends)


def test_the_bar_weighs_what_steel_of_its_size_weighs(coach: Coach) -> None:
    (piece,) = plan(coach, "first-hook")["pieces"]
    # EN 1993-1-1:2005, 3.2.6: the density of steel is 7850 kg/m³; the bar is 10 mm square.
    volume = 10.0 * 10.0 * piece["length"]["value"]
    assert piece["mass"]["value"] == pytest.approx(volume * 7.85e-3, rel=0.005)


def test_a_hole_is_centred_in_its_zone(coach: Coach) -> None:
    body = plan(coach, "carpenters-adze")["pieces"][0]
    (centre,) = body["centres"]
    about = [mark for mark in body["marks"] if centre["zone"] in (mark["begins"], mark["ends"])]
    before, after = (mark["at"]["value"] for mark in about)
    assert centre["at"]["value"] == pytest.approx((before + after) / 2.0)


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_step_is_on_the_page_with_its_targets(coach: Coach, recipe: str) -> None:
    said = coach("plan", recipe).out
    for step in plan(coach, recipe)["steps"]:
        assert f"{step['step']['number']}. {step['step']['title']}" in said
        for target in step["step"]["targets"]:
            told = f"{target['zone']} {target['dimension'].replace('_', ' ')} {target['wanted']['text']}"
            assert told.strip() in said


def test_the_page_says_where_to_mark_to_punch_and_to_cut(coach: Coach) -> None:
    said = coach("plan", "carpenters-adze").out
    values = plan(coach, "carpenters-adze")
    for piece in values["pieces"]:
        for mark in piece["marks"]:
            assert f"mark at {write_length(mark['at']['value'])}" in said
        for centre in piece["centres"]:
            assert f"punch at {write_length(centre['at']['value'])}" in said
    for cut in values["cuts"]:
        assert f"cut at {write_length(cut['length']['value'])}" in said


@pytest.mark.parametrize("recipe", SHELF)
@pytest.mark.parametrize("units", ["--mm", "--in"])
def test_nothing_of_a_bundled_plan_is_cut_off(coach: Coach, recipe: str, units: str) -> None:
    said = coach("plan", recipe, units).out
    assert "…" not in said
    assert [line for line in said.splitlines() if len(line) > PAGE] == []


@pytest.mark.parametrize("recipe", SHELF)
def test_each_figure_stands_at_its_mark_over_the_bar(coach: Coach, recipe: str) -> None:
    lines = coach("plan", recipe).out.splitlines()
    bars = [at for at, line in enumerate(lines) if line.startswith("    ██") and "██" in lines[at + 1]]
    for at, piece in zip(bars, plan(coach, recipe)["pieces"], strict=True):
        ticks, bar = lines[at - 1], lines[at].split("░")[0].rstrip()
        spots = [place for place, letter in enumerate(ticks) if letter == "│"]
        places = sorted(one["at"]["value"] for one in (*piece["marks"], *piece["centres"]))
        above = takewhile(lambda line: not set(line) - set(" │.0123456789"), reversed(lines[: at - 1]))
        told = sorted(
            " ".join(above).replace("│", " ").split(), key=float
        )  # where two stand close, in two rows
        begins = piece["begins"]["value"]  # of one of several on a bar: where the one before it ends
        first = write_length(begins, unit=False) if begins else "0"
        assert told == [first, *(write_length(one, unit=False) for one in places)]
        across = len(bar) - 4
        for spot, place in zip(spots[1:], places, strict=True):
            assert abs(spot - 4 - (place - begins) / piece["length"]["value"] * across) <= 1.0


def test_inches_and_millimetres_are_two_ways_to_write_one_plan(coach: Coach) -> None:
    metric = coach("plan", "first-hook", "--mm", "--json").values
    inches = coach("plan", "first-hook", "--in", "--json").values
    assert inches["pieces"] == metric["pieces"]
    assert metric["finished_mass"] == inches["finished_mass"]
    assert coach("plan", "first-hook", "--units", "in").out == coach("plan", "first-hook", "--in").out
