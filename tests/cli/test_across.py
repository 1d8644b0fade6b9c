"""Several jobs at one fire: which is in it and since when, and what is to be taken on next."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from tests.cli.conftest import Coach


def turns(coach: Coach) -> dict[str, str]:
    found = coach("ahead", "--json").part("jobs")
    assert isinstance(found, list)
    return {one["job"]: one["turn"] for one in found}


def test_what_lies_in_the_fire_comes_first_then_what_is_out_then_what_goes_in(coach: Coach) -> None:
    for name in ("one", "two", "three", "four"):
        coach("begin", "first-hook", "--name", name)
    for name in ("one", "two", "three"):
        coach("done", name)
    coach("heat", "two")
    coach("heat", "three")
    coach("fire", "three")
    assert turns(coach) == {
        "three": "lies in the fire",
        "two": "is out of the fire",
        "one": "goes to the fire next",
        "four": "is worked cold next",
    }
    assert list(turns(coach)) == ["three", "two", "one", "four"]
    told = coach("ahead").out
    assert told.startswith("Next  three, step 2, Draw out the tip: it lies in the fire.")
    assert "lies in the fire since" in told


def test_the_heat_that_a_step_asks_for_is_not_told_as_that_of_the_piece(coach: Coach) -> None:
    coach("begin", "first-hook", "--name", "one")
    coach("done", "one")
    coach("heat", "one")  # it lies on the anvil, and is not that hot for long
    told = coach("ahead").out
    assert "heats to" in told


def test_what_waits_for_its_temper_comes_before_all_else(coach: Coach) -> None:
    coach("begin", "first-hook")
    coach("done", "first-hook")
    coach("fire", "first-hook")
    coach("begin", "cold-chisel")
    steps = coach("plan", "cold-chisel", "--json").part("steps")
    assert isinstance(steps, list)
    number = next(at for at, one in enumerate(steps, 1) if one["step"]["operation"] == "harden")
    for _ in range(number):
        coach("done", "cold-chisel")
    assert next(iter(turns(coach).items())) == ("cold-chisel", "must not wait")
    assert "must be followed by its temper" in " ".join(coach("ahead").out.split())


def test_what_lay_hard_since_yesterday_says_since_when_and_asks_for_a_crack_first(coach: Coach) -> None:
    # Steel is tempered within 4 h of its quench: a furnace maker's page on tempering furnaces.
    now = datetime.now().astimezone()
    yesterday = f"{now - timedelta(days=1):%Y-%m-%d}"
    coach("begin", "cold-chisel", "--at", f"{yesterday} 0:10")
    steps = coach("plan", "cold-chisel", "--json").part("steps")
    assert isinstance(steps, list)
    number = next(at for at, one in enumerate(steps, 1) if one["step"]["operation"] == "harden")
    for _ in range(number):
        assert coach("done", "cold-chisel", "--at", f"{yesterday} 0:20").code == 0
    told = " ".join(coach("ahead").out.split())
    quenched = datetime.fromisoformat(f"{yesterday} 00:20").astimezone()
    hours = (now - quenched).total_seconds() / 3600.0
    assert f"It has lain hard for {hours:.0f} h: look for a crack (crack test) before it is tempered." in told
    assert "must not wait since yesterday 00:20" in told


def test_what_is_set_aside_finished_or_unknown_is_none_of_them(coach: Coach) -> None:
    assert "No job was begun yet" in coach("ahead").err
    coach("begin", "first-hook")
    coach("aside", "first-hook")
    assert "No job is in hand" in coach("ahead").out
    assert coach("ahead", "--by", "25:00").code == 0  # of no job nothing is reckoned
    coach("resume", "first-hook")
    assert "is no hour" in coach("ahead", "--by", "25:00").err


def test_each_tells_how_far_it_comes_by_an_hour(coach: Coach, monkeypatch: pytest.MonkeyPatch) -> None:
    coach("begin", "first-hook")
    one = coach("ahead", "first-hook", "--by", "23:59", "--json")
    every = coach("ahead", "--by", "23:59", "--json").part("jobs")
    assert isinstance(every, list)
    if one.code == 0:  # unless that hour is past
        assert every[0]["ahead"]["surely"] == one.values["surely"]
