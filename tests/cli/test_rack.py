"""The rack: bars laid, corrected and taken off, a job begun from one, the cut taken off it and given back."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing

import pytest

from coach.bench import off_rack
from coach.bench.job_state import JobState
from coach.bench.replay import replay
from coach.ledger.plan import Plan
from coach.log.entries import Entry
from coach.places import bundled_recipes
from tests.cli.conftest import Coach, Said


def lengths(coach: Coach) -> dict[str, float]:
    bars = coach("rack", "--json").part("rack", "bars")
    assert isinstance(bars, list)
    return {bar["name"]: round(bar["length"]["value"], 1) for bar in bars}


def laid(coach: Coach) -> Coach:
    for name, bar in (
        ("long-hex", "hexagon 19, long 500, C80"),
        ("stub", "hexagon 19, long 180, C80"),
        ("short", "hexagon 19, long 120, C80"),
        ("iron", "square 16, long 90, mild steel"),
    ):
        assert coach("rack", name, bar).code == 0
    return coach


def needed_mm(coach: Coach) -> float:
    """The bar that the recipe's own plan takes."""
    found = coach("plan", "cold-chisel", "--json").part("pieces")
    assert isinstance(found, list)
    return float(found[0]["length"]["value"])


def test_an_empty_rack_says_how_to_lay_a_bar_there(coach: Coach) -> None:
    told = coach("rack")
    assert "The rack is empty. Lay a bar on it: `coach rack NAME BAR`" in told.out
    assert coach("rack", "long").err.startswith("The rack is empty: lay a bar on it")


def test_an_odd_offcut_goes_by_its_weight(coach: Coach) -> None:
    """Of 45 x 20 with 7.85 g/cm³ (EN 10058, from memory) 350 g are 350 / (7.85e-3 x 900) = 49.5 mm."""
    assert coach("rack", "odd", "45 x 20, 350 g, C45").code == 0
    assert lengths(coach) == {"odd": 49.5}
    assert "about 50 mm" in coach("rack").out


def test_a_bar_is_corrected_by_its_name_and_what_is_not_told_stays(coach: Coach) -> None:
    coach("rack", "Long Hex", "hexagon 19, long 500, C80")
    assert coach("rack", "long-hex", "hexagon 19, long 480").out.startswith(
        "Corrected on the rack: long-hex, C80"
    )
    assert lengths(coach) == {"long-hex": 480.0}
    assert coach("rack", "--strike", "2").code == 0
    assert lengths(coach) == {"long-hex": 500.0}
    coach("rack", "long-hex", "--gone")
    assert lengths(coach) == {}
    coach("rack", "--strike", "4")
    assert lengths(coach) == {"long-hex": 500.0}
    assert "struck out: off the rack" not in coach("rack", "--history").out
    assert coach("rack", "--history").out.count("struck out: long-hex") == 2


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("x", "foo"), "is no bar"),
        (("x", "hexagon 19, C80"), "Say how long the bar is, or what it weighs"),
        (("x", "hexagon 19, long 30"), "Say the grade of the bar too"),
        (("x", "hexagon 19, long 30, C99"), "There is no grade"),
        (("x", "20, long 30, 300 g, C45"), "A length and a weight were both told"),
        (("x", "hexagon 19, long -30, C80"), "-30"),
        (("-x", "20, long 30, C45"), "-x"),
        (("x/y", "20, long 30, C45"), "cannot be a bar's name"),
        (("nix", "--gone"), "The rack is empty"),
        (("--gone",), "Say which bar is gone"),
        (("--strike", "3"), "The rack has no entry 3: it has none yet."),
        (("--history", "--for", "first-hook"), "one thing at a time"),
        (("x", "--history"), "goes without the name of a bar"),
    ],
)
def test_what_cannot_be_is_one_sentence_and_nothing_is_entered(
    coach: Coach, words: tuple[str, ...], why: str
) -> None:
    said = coach("rack", *words)
    assert said.code == 2
    assert why in said.err
    assert len(said.err.splitlines()) == 1
    assert "Nothing was ever laid on the rack." in coach("rack", "--history").out


def test_the_bar_that_leaves_least_over_comes_first_and_the_others_say_why_not(coach: Coach) -> None:
    told = laid(coach)("rack", "--for", "cold-chisel").out
    first, second = (line.split()[0] for line in told.splitlines()[2:4])
    assert (first, second) == ("stub", "long-hex")
    assert f"short: {needed_mm(coach) - 120.0:.1f} mm too short" in told
    assert "iron: it is mild steel, and C80 is wanted" in told
    assert coach("rack", "--for", "first-hook").code == 0


def test_a_job_begun_from_the_rack_takes_its_length_off_the_bar(coach: Coach) -> None:
    begun = laid(coach)("begin", "cold-chisel", "--from-rack")
    needs_mm = needed_mm(coach)
    assert f"{needs_mm:.1f} mm are cut off stub, of which {180 - needs_mm:.1f} mm stay." in begun.out
    assert lengths(coach)["stub"] == pytest.approx(180.0 - needs_mm, abs=0.06)
    assert "for cold-chisel" in coach("rack").out
    # what it is marked out by is the recipe's own, for it is that bar but for its length
    assert first_mark(begun) == first_mark(coach("begin", "cold-chisel"))


def first_mark(said: Said) -> str:
    return said.out.partition("wanted ")[2].split()[0]


def test_a_named_bar_is_taken_and_another_section_is_reckoned_anew(coach: Coach) -> None:
    """A hook's tip of 10 mm square: from 16 mm square it takes (10/16)² of what it takes from its own bar."""
    own_mm, other_mm = (
        float(coach("plan", "first-hook", *bar, "--json").values["pieces"][0]["length"]["value"])  # type: ignore[index]
        for bar in ((), ("--bar", "square 16"))
    )
    assert other_mm < own_mm
    laid(coach)("begin", "first-hook", "--from-rack", "iron")
    assert lengths(coach)["iron"] == pytest.approx(90.0 - other_mm, abs=0.06)


def test_a_job_set_aside_before_its_first_heat_gives_its_bar_back(coach: Coach) -> None:
    laid(coach)("begin", "cold-chisel", "--from-rack")
    taken = lengths(coach)["stub"]
    coach("aside", "cold-chisel")
    assert lengths(coach)["stub"] == 180.0
    coach("strike", "cold-chisel")
    assert lengths(coach)["stub"] == taken
    coach("heat", "cold-chisel")
    coach("aside", "cold-chisel")
    assert lengths(coach)["stub"] == taken
    refused = coach("rack", "--strike", "5")
    assert refused.code == 2
    assert "is what cold-chisel was begun from" in refused.err


def test_nothing_is_begun_in_silence_on_a_bar_of_the_rack_that_cannot_do_it(coach: Coach) -> None:
    refused = laid(coach)("begin", "cold-chisel", "--from-rack", "short")
    assert refused.code == 2
    assert "The bar for chisel is too short" in refused.err
    assert coach("jobs", "--json").part("jobs") == []
    assert lengths(coach)["short"] == 120.0
    begun = coach("begin", "cold-chisel", "--from-rack", "short", "--anyway")
    assert "all of short is taken, and it is" in begun.out
    assert "short" not in lengths(coach)  # nothing of it is left


def test_two_pieces_are_taken_off_one_bar_one_after_the_other(coach: Coach) -> None:
    coach("rack", "long", "round 10, long 1500, mild steel")
    coach("begin", "bolt-tongs", "--from-rack", "rivet=long")
    once = 1500.0 - lengths(coach)["long"]
    coach("begin", "bolt-tongs", "--from-rack", "rivet=long")
    assert 1500.0 - lengths(coach)["long"] == pytest.approx(2 * once, abs=0.11)


def test_of_several_pieces_each_says_which_bar_is_its(coach: Coach) -> None:
    assert (
        "say which one the bar is for" in laid(coach)("begin", "carpenters-adze", "--from-rack", "stub").err
    )
    assert "not both" in coach("begin", "first-hook", "--from-rack", "iron", "--bar", "square 12").err


def test_a_job_begun_without_it_is_told_what_lies_there(coach: Coach) -> None:
    told = " ".join(laid(coach)("begin", "cold-chisel").out.split())
    assert (
        "Of its grade there lies on the rack: long-hex, stub, short. `coach rack --for cold-chisel`" in told
    )
    assert "on the rack" not in coach("begin", "drawknife").out


def test_a_bar_is_told_by_its_weight_and_its_grade_where_a_job_is_begun_too(coach: Coach) -> None:
    """Of square 12 with 7.85 g/cm³ 200 g are 200 / (7.85e-3 x 144) = 177 mm."""
    told = coach("begin", "first-hook", "--bar", "square 12, 200 g")
    assert told.code == 0
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    assert "metal: mild steel" in text
    coach("begin", "first-hook", "--name", "other", "--bar", "square 12, long 200, wrought iron")
    assert "metal: wrought iron" in coach("recipe-of", "other").out


def test_the_rack_is_told_in_inches_where_they_are_asked_for(coach: Coach) -> None:
    """3/4 in are 19.05 mm and 12 in are 304.8 mm (by definition)."""
    assert coach("rack", "bar", "hexagon 3/4, long 12, C80", "--units", "in").code == 0
    assert lengths(coach) == {"bar": 304.8}
    assert "hexagon 3/4 in  12 in" in coach("rack", "--units", "in").out


def test_a_batch_is_begun_from_one_bar_with_one_row_of_marks(coach: Coach) -> None:
    """Three of the recipe's own: three times its length of one bar, each piece with its zones."""
    coach("rack", "long", "hexagon 19, long 900, C80")
    one_mm = needed_mm(coach)
    assert coach("rack", "--for", "cold-chisel", "--make", "3").code == 0
    coach("begin", "cold-chisel", "--from-rack", "--make", "3")
    assert lengths(coach)["long"] == pytest.approx(900.0 - 3 * one_mm, abs=0.2)
    told = coach("where", "cold-chisel", "--json").values
    assert told["steps"] == 36
    coach("read", "cold-chisel", "chisel 1 edge.mark=41")
    coach("done", "cold-chisel")
    assert "chisel 2 edge" in coach("where", "cold-chisel").out
    assert (
        "make: 3" in coach("recipe-of", "cold-chisel").out
        or "chisel 3" in coach("recipe-of", "cold-chisel").out
    )


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("begin", "cold-chisel", "--make", "12"), "is too short: it is 500 mm long"),
        (("begin", "cold-chisel", "--make", "0"), "is not how many are made"),
        (("begin", "cold-chisel", "--make", "x"), "type a whole number from 1 to"),
        (("plan", "cold-chisel", "--make", "1.5"), "is not how many are made"),
        (("rack", "--make", "3"), "--make goes with a recipe"),
    ],
)
def test_a_batch_that_cannot_be_says_why(coach: Coach, words: tuple[str, ...], why: str) -> None:
    refused = coach(*words)
    assert refused.code == 2
    assert why in refused.err
    assert coach("jobs", "--json").part("jobs") == []


def test_a_recipe_that_makes_several_makes_as_many_as_are_told(coach: Coach) -> None:
    of_one, of_two = (
        coach("plan", "cold-chisel", "--bar", "hexagon 19", "--make", count, "--json").values
        for count in ("1", "2")
    )
    assert of_two["heats"] == 2 * int(str(of_one["heats"]))


def test_a_rack_is_copied_before_any_job_is_begun(coach: Coach) -> None:
    coach("rack", "bar", "hexagon 19, long 500, C80")
    coach("rack")
    told = coach("backups").out
    assert "0 jobs, 1 entry" in told
    (coach.home / "data" / "shop.sqlite").unlink()
    assert "coach restore" in coach("rack").err
    assert coach("restore").code == 0
    assert lengths(coach) == {"bar": 500.0}


def test_what_a_job_took_beside_its_plan_is_reckoned_once(
    coach: Coach, monkeypatch: pytest.MonkeyPatch
) -> None:
    replayed: list[str] = []

    def counted(plan: Plan, entries: Sequence[Entry]) -> JobState:
        replayed.append("once")
        return replay(plan, entries)

    monkeypatch.setattr(off_rack, "replay", counted)
    laid(coach)("begin", "cold-chisel", "--from-rack")
    planned_mm = lengths(coach)["stub"]
    replayed.clear()
    assert lengths(coach)["stub"] == planned_mm
    assert replayed == []
    coach("read", "cold-chisel", f"head.mark={needed_mm(coach) + 1.5:.1f}")
    assert lengths(coach)["stub"] != planned_mm  # what is entered makes void what was kept
    assert replayed == ["once"]


def test_a_job_that_cannot_be_followed_is_said(coach: Coach, monkeypatch: pytest.MonkeyPatch) -> None:
    laid(coach)("begin", "cold-chisel", "--from-rack")
    planned_mm = lengths(coach)["stub"]
    with closing(sqlite3.connect(coach.home / "data" / "shop.sqlite")) as log, log:
        guard = log.execute("SELECT sql FROM sqlite_schema WHERE name = 'entries_never_change'").fetchone()
        log.execute("DROP TRIGGER entries_never_change")
        log.execute("UPDATE entries SET body = '{}' WHERE job = 'cold-chisel' AND number = 1")
        log.execute(guard[0])
    told = coach("rack")
    assert "What cold-chisel took is told as it was planned: its entries cannot be followed." in " ".join(
        told.out.split()
    )
    assert lengths(coach)["stub"] == planned_mm
    assert coach("rack", "--json").part("rack", "not_followed") == ["cold-chisel"]


def test_what_is_left_of_a_bar_is_the_steel_that_its_piece_proved_to_be(coach: Coach) -> None:
    coach("rack", "stub", "hexagon 19, long 400, C80")
    coach("begin", "cold-chisel", "--name", "chisel", "--from-rack", "stub")
    coach("done", "chisel")  # it is marked out: what it proves to be now is what the bar is
    assert "the chisel is 1060, not C80" in coach("change", "chisel", "grade 1060", "--take").out
    told = coach("rack").out
    assert "stub  1060" in told
    assert "stub was laid as C80: it proved to be 1060 in chisel." in told
    assert " of 1060, " in coach("sheet", "chisel").out
    coach("strike", "chisel")
    assert "C80" in coach("rack").out
    assert "proved to be" not in coach("rack").out


def test_a_bar_that_another_took_the_place_of_at_the_mark_out_is_whole_again(coach: Coach) -> None:
    coach("rack", "rod", "round 8, long 1200, mild steel")
    coach("begin", "coiled-stove-poker", "--name", "poker", "--from-rack", "rod")
    taken = lengths(coach)["rod"]
    assert taken < 300
    coach("change", "poker", "bar round 8, long 1100", "--take")  # the same bar, and measured once more
    assert lengths(coach)["rod"] == taken
    coach("change", "poker", "bar round 8.4, long 1000", "--take")  # another one
    assert lengths(coach)["rod"] == 1200
    assert "for poker" not in coach("rack").out
    coach("strike", "poker")
    assert lengths(coach)["rod"] == taken


def test_a_bar_of_another_steel_that_is_named_is_taken_and_said_to_be_so(coach: Coach) -> None:
    coach("rack", "odd", "52 x 9, 420 g, C80")
    told = " ".join(coach("begin", "carpenters-adze", "--from-rack", "edge=odd").out.split())
    assert "odd is C80, and the recipe's edge is 1084" in told
    assert "reckoned as C80" in told
