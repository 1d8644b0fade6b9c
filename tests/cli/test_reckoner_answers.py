"""The reckoner answers in words, in inches and in JSON, and refuses in one sentence."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Coach
from tests.cli.questions import assert_answered, assert_metric_in_json, assert_refused, assert_sourced
from tests.cli.test_lean import COSTLY, loaded_by

# One question to each command that is answered.
QUESTIONS = [
    ("cooling", "25mm"),
    ("cooling", "round", "60mm", "--from", "yellow", "--to", "300", "--anvil"),
    ("soaking", "40x10mm", "--fire", "1150"),
    ("colour",),
    ("colour", "--temper"),
    ("colour", "light", "orange"),
    ("colour", "300"),
    ("expansion", "186mm", "--at", "orange"),
    ("weight", "25mm"),
    ("weight", "octagon", "25mm", "1m"),
    ("length", "ring", "--inside", "100mm", "--stock", "12mm"),
    ("length", "bend", "100mm", "60mm", "--inside-radius", "5mm", "--stock", "10mm"),
    ("spread", "25mm", "--to", "20mm"),
    ("spread", "40x10mm", "--to", "8mm"),
    ("blows", "40mm", "100mm", "--to", "40x20mm", "--at", "orange", "--by", "power", "25"),
    ("limits", "wrought iron", "C45", "unknown spring steel"),
]


@pytest.mark.parametrize("words", QUESTIONS, ids=" ".join)
@pytest.mark.parametrize("units", ["mm", "in"])
def test_every_question_is_answered_in_lines_that_fit_and_touches_no_log(
    coach: Coach, words: tuple[str, ...], units: str
) -> None:
    assert_answered(coach, words, units)


@pytest.mark.parametrize("words", QUESTIONS, ids=" ".join)
def test_figures_in_json_are_metric_whatever_is_shown(coach: Coach, words: tuple[str, ...]) -> None:
    assert_metric_in_json(coach, words)


def test_sizes_are_read_and_shown_in_inches(coach: Coach) -> None:
    said = coach("weight", "1", "36", "--units", "in")
    # 3.4 lb a foot: 490 lb/ft³ (confirmed).
    assert said.out.splitlines()[0].startswith("36 in of square 1 in of mild steel weighs 10 lb 3.5 oz")
    assert (
        "34 15/16 in"
        in coach("length", "ring", "--inside", "10", "--stock", "1", "--weld", "3/8", "--units", "in").out
    )
    assert "1472 °F" in coach("cooling", "1", "--from", "1200C", "--to", "1472F", "--units", "in").out


def test_a_unit_at_the_end_of_a_flat_holds_for_both_sizes(coach: Coach) -> None:
    said = coach("weight", "1 1/2 x 3/8 in", "1000mm", "--json")
    assert said.part("mass", "value") == pytest.approx(38.1 * 9.525 * 1000 * 7.85e-3, rel=1e-9)


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        (("round", "25"), "round 25 mm"),
        (("round 25",), "round 25 mm"),
        (("Round", "1in"), "round 25.4 mm"),
        (("25",), "square 25 mm"),
        (("25x25",), "square 25 mm"),
        (("10×40",), "flat 40 × 10 mm"),
        (("flat", "40 x 10 mm"), "flat 40 × 10 mm"),
        (("octagon", "25"), "octagon 25 mm"),
    ],
)
def test_a_bar_is_typed_as_a_smith_says_it(coach: Coach, written: tuple[str, ...], shown: str) -> None:
    said = coach("weight", *written, "100", "--json")
    assert f" of {shown} of " in coach("weight", *written, "100").out
    # What is shown can be typed again.
    assert coach("weight", shown, "100", "--json").part("section") == said.part("section")


# What is typed, and words that the sentence must have.
WRONG: list[tuple[list[str], list[str]]] = [
    (["cooling"], ["SECTION", "coach cooling --help"]),
    (["cooling", "hello"], ["hello", "40x10", "round 25"]),
    (["cooling", "10x20x30"], ["10x20x30", "40x10"]),
    (["cooling", "flat", "25"], ["flat 25", "two sizes"]),
    (["cooling", "round", "25x20"], ["round 25x20", "one size"]),
    (["cooling", "25", "--from", "800", "--to", "900"], ["900 °C", "--from"]),
    (["cooling", "25", "--to", "20"], ["20 °C", "hotter"]),
    (["cooling", "25", "--from", "1500"], ["1500 °C"]),
    (["cooling", "25", "--from", "lihgt orange"], ["lihgt orange", "light orange"]),
    (["cooling", "25", "--metal", "mild stel"], ["mild stel", "mild steel"]),
    (["cooling", "0"], ["0"]),
    (["cooling", "25x"], ["25x", "40x10"]),
    (["cooling", "5m"], ["5m", "508 mm"]),
    (["cooling", "25", "--units", "in"], ["25", "1/32 in", "20 in"]),
    (["cooling", "0.1"], ["0.4 mm"]),
    (["soaking", "25", "--fire", "900", "--from", "890"], ["890 °C", "hotter --fire"]),
    (["blows", "25", "30", "--to", "25x25", "--at", "1100"], ["already"]),
    (["soaking", "25"], ["--fire"]),
    (["soaking", "25", "--fire", "1150", "--within", "x"], ["45 F"]),
    (["soaking", "25", "--fire", "1150", "--within", "0"], ["above 0"]),
    (["colour", "chery"], ["chery", "cherry"]),
    (["colour", "--temper", "cherry"], ["cherry"]),
    (["colour", "9000"], ["9000", "1600"]),
    (["colour", "--table", "Foo"], ["Foo", "Howe"]),
    (["colour", "salmon", "--table", "Howe"], ["salmon"]),
    (["expansion", "200"], ["--at"]),
    (["expansion", "200", "--at", "1400"], ["1400 °C", "1394 °C"]),
    (["expansion", "1,500", "--at", "900"], ["1,500"]),
    (["weight", "25", "10", "--mass", "3kg"], ["length and a mass"]),
    (["weight", "25", "--mass", "heavy"], ["heavy"]),
    (["weight", "25", "nan"], ["nan"]),
    # 508 mm round: 1591 kg to the metre at 7.85 g/cm³, by geometry.
    (["weight", "round 508", "100m"], ["159106", "1000 kg", "give the length again"]),
    (["weight", "0.4", "--mass", "900kg"], ["100000 mm", "give the mass again"]),
    (["spread", "25", "--to", "1"], ["by steps", "5 mm"]),
    (["length"], ["coach length --help"]),
    (["length", "coil", "--stock", "3"], ["coil"]),
    (["length", "ring", "--stock", "3"], ["--inside"]),
    (["length", "ring", "10", "--stock", "3", "--inside", "30"], ["10 mm", "no legs"]),
    (["length", "ring", "--stock", "3", "--inside", "30", "--angle", "45"], ["--angle", "ring"]),
    (["length", "ring", "--stock", "3", "--inside", "30", "--weld", "9m"], ["weld"]),
    (["length", "bend", "10", "--stock", "3", "--inside-radius", "3"], ["two legs"]),
    (["length", "bend", "10", "9", "--stock", "3", "--inside-radius", "50"], ["Leg 1", "smaller radius"]),
    (["length", "bend", "90", "9", "--stock", "3", "--inside-radius", "5", "--weld", "1"], ["--weld"]),
    (["length", "bend", "90", "90", "--stock", "3"], ["--inside-radius"]),
    (
        ["length", "bend", "9", "9", "--stock", "1", "--inside-radius", "1", "--angle", "180"],
        ["180°", "150°"],
    ),
    (["spread", "25"], ["--to"]),
    (["spread", "25", "--to", "30"], ["give a new height"]),
    (["spread", "25", "--to", "40x20"], ["upset"]),
    (["spread", "round", "25", "--to", "20"], ["square and flat"]),
    (["spread", "25", "--to", "20", "--bite", "100"], ["6.3 to 37.5 mm"]),
    (["blows", "25", "30", "--at", "1100"], ["--to"]),
    (["blows", "25", "30", "--to", "26", "--at", "1100"], ["26 mm", "smaller thickness"]),
    (["blows", "25", "30", "--to", "round", "40", "--at", "1100"], ["round 40 mm", "smaller section"]),
    (["blows", "round", "25", "30", "--to", "20", "--at", "1100"], ["flattening", "section"]),
    (["blows", "25", "30", "--to", "20", "--at", "700"], ["700 °C", "hotter --at"]),
    (["blows", "25", "30", "--to", "20", "--at", "1100", "--by", "elephant"], ["elephant", "sledge"]),
    (["blows", "25", "30", "--to", "20", "--at", "1100", "--by", "power", "5000"], ["5000 kg", "250"]),
    (["blows", "25", "30", "--to", "20", "--at", "1000", "--metal", "unknown spring steel"], ["carbon"]),
    (["limits"], ["GRADE"]),
    (["limits", "wrought", "iron"], ["wrought iron"]),
]


@pytest.mark.parametrize(("words", "telling"), WRONG, ids=[" ".join(words)[:70] for words, _ in WRONG])
def test_a_question_without_an_answer_is_refused_in_one_sentence(
    coach: Coach, words: list[str], telling: list[str]
) -> None:
    assert_refused(coach, words, telling)


def test_spread_refuses_a_thickness_above_that_of_the_bar_before_it_tells_anything(coach: Coach) -> None:
    assert coach("spread", "40x10", "--to", "12").code == 2


@pytest.mark.parametrize(
    "verb", ["blows", "colour", "cooling", "expansion", "length", "limits", "soaking", "spread", "weight"]
)
def test_help_names_the_sources_and_says_that_it_is_an_estimate(coach: Coach, verb: str) -> None:
    marks = ("(confirmed)", "(confirmed second-hand)", "(from memory)", "(judgement)")
    assert_sourced(coach, verb, "Source", marks)


def test_help_lists_the_reckoner_after_the_commands_of_the_jobs(coach: Coach) -> None:
    jobs, _, reckoner = coach("--help").out.partition("one figure at a time")
    for verb in ("where", "read", "plan"):
        assert f"\n  {verb} " in jobs
    for verb in ("cooling", "weight", "limits"):
        assert f"\n  {verb} " in reckoner
        assert f"\n  {verb} " not in jobs


def test_burning_steel_and_metal_that_looks_cold_are_warned_of(coach: Coach) -> None:
    assert "Caution: Steel that throws sparks" in coach("limits", "C80").out
    assert "Caution:" in coach("cooling", "25", "--from", "900", "--to", "300").out
    assert "Caution:" in coach("colour", "300").out
    assert "Caution:" not in coach("cooling", "25").out
    assert "Caution:" not in coach("colour", "900").out
    assert "Caution:" not in coach("colour", "--temper", "300").out


@pytest.mark.parametrize(
    ("metal", "at", "told"),
    [
        # O1 is forged up to 1065 °C (1950 °F), W1 up to 1040 (makers' sheets, confirmed second-hand).
        ("O1", "1150", "1065 °C, the most that O1 is forged at"),
        ("O1", "1060", ""),
        ("W1", "1180", "the most that W1 is forged at"),
        ("mild steel", "1200", ""),
    ],
)
def test_a_heat_above_the_highest_to_forge_at_is_told(coach: Coach, metal: str, at: str, told: str) -> None:
    for words in (
        ("blows", "25", "100", "--to", "20", "--at", at, "--metal", metal),
        ("cooling", "25", "--from", at, "--metal", metal),
    ):
        out = " ".join(coach(*words).out.split())
        assert ("the most that" in out) is bool(told)
        assert told in out


def test_a_welding_heat_that_cools_is_none_too_hot_to_forge_at(coach: Coach) -> None:
    # 1095 is welded at 1080 to 1150 °C with borax, and forged at 1060 at most (from memory).
    assert "the most that" not in coach("cooling", "25", "--from", "1140", "--metal", "1095").out
    blows = coach("blows", "25", "100", "--to", "20", "--at", "1140", "--metal", "1095").out
    assert "the most that 1095 is forged at" in " ".join(blows.split())


def test_a_heat_that_would_burn_the_grade_is_told(coach: Coach) -> None:
    assert "feared to burn" in coach("cooling", "12", "--metal", "1095", "--from", "1300").out
    assert "feared to burn" in coach("soaking", "12", "--metal", "1095", "--fire", "1300").out
    assert "feared to burn" not in coach("cooling", "12", "--metal", "wrought iron", "--from", "1300").out


def test_a_question_needs_nothing_costly(coach: Coach) -> None:
    wanted = COSTLY | {"sqlite3", "platformdirs"}
    assert loaded_by("cooling", "25", "--from", "1200", "--to", "800") & wanted == set()
    assert loaded_by("colour", "orange") & wanted == set()
    assert loaded_by("weight", "round", "25", "1000") & wanted == set()


def test_what_cools_is_not_told_to_have_no_colour_yet(coach: Coach) -> None:
    # Nothing glows by day below some 525 °C (J. W. Draper, 1847; from memory).
    out = coach("cooling", "25", "--from", "800", "--to", "300", "--metal", "1084").out
    assert "no colour yet" not in out
    assert "400 °C  glows no more" in out
