"""Slips that a hand makes at a line: each is one clear sentence at its line and column."""

from __future__ import annotations

import pytest

from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.recipes.test_faults import faults_of

SPIKE = """\
recipe: Spike
pieces:
  spike:
    metal: C45
    bar: square 14
    zones:
      tail: square 14 to 3, long 80 ±6
      shank: square 14, long 100 ±6
usual: {at: orange}
steps:
  - mark out: spike
  - taper: tail, 3 heats
  - fit: shank, gap at most 0.8
  - cut: shank, cold
"""


STRAP = """\
recipe: Strap and pin
pieces:
  strap:
    metal: mild steel
    bar: 40 x 6
    make: 2
    zones:
      eye: strap eye, inside 16.5 ±1, wide 40 ±2, thick 5.8 ±0.5, lap 30 ±8
      leaf: profile 40 x 6, then 45 x 3 at 40, then 5 x 2 at 90, long 90 ±12
  stem:
    metal: mild steel
    bar: square 10
    size: square 10, long 90 ±8, twisted 2 turns
  pin:
    metal: mild steel
    bar: round 6
    size: rivet, heads two, diameter 6 ±0.3, grip 12 ±0.6, head diameter 10 ±1, head height 3 ±0.8
usual: {at: light yellow, weld at: 1300 °C}
steps:
  - mark out: strap
  - draw: leaf
  - fold: eye
  - weld shut: eye, heats 1 weld + 1 close
    check: inside, lap, weld line
  - twist: stem, 1 heat
  - join: strap 1 eye and strap 2 eye by pin, cold, gap at most 0.4
"""


@pytest.mark.parametrize(
    ("was", "put", "at", "told"),
    [
        ("heads two", "heads tow", "heads tow", "did you mean heads two?"),
        ("then 5 x 2 at 90", "than 5 x 2 at 90", "than 5", "did you mean then?"),
        ("twisted 2 turns", "twisted 2", "twisted 2", "as in twisted 2 turns"),
        ("heats 1 weld + 1 close", "1 weld + 1 close", "1 weld +", "as in heats 1 weld + 1 close"),
        ("inside, lap, weld line", "inside lap weld line", "inside lap", "write inside, lap, weld line"),
        ("long 90 ±12", "long 90 ±.12", "90 ±.12", "write 0 before its mark"),
        ("bar: round 6", "bar: 6", "6\n    size: rivet", "says what it is: round 6, square 6"),
        ("make: 2", "make: 20", "20\n    zones", "as a whole number from 1 to 12"),
    ],
)
def test_a_slip_in_a_choice_or_a_list_is_told_once_with_what_to_write(
    was: str, put: str, at: str, told: str
) -> None:
    read_recipe(STRAP, "strap.yaml")
    text = STRAP.replace(was, put, 1)
    (fault,) = faults_of(text)
    assert told in write(fault.message)
    before = text[: text.index(at)]
    assert (fault.line, fault.column) == (before.count("\n") + 1, len(before) - before.rfind("\n"))


def test_a_name_of_none_is_answered_with_each_name_once_and_in_the_order_of_the_file() -> None:
    (fault,) = faults_of(STRAP.replace("twist: stem", "twist: handle"))
    assert "use eye, leaf, stem or pin" in write(fault.message)


@pytest.mark.parametrize(
    ("was", "put", "at", "told"),
    [
        (
            "- taper: tail,",
            "- taper:tail,",
            "taper:tail",
            "a blank belongs behind the colon: write taper: ",
        ),
        (
            "- taper: tail,",
            "- taper tail,",
            "taper tail",
            "a colon is missing behind taper: write taper: ",
        ),
        ("recipe: Spike", "recipe Spike", "recipe S", "a colon is missing behind recipe: write “recipe: "),
        ("recipe: Spike", "recipe:Spike", ":Spike", "a blank is missing behind the colon: write “recipe: "),
        ("shank: square", "shank:square", ":square", "a blank is missing behind the colon: write “shank: "),
        ("- taper: tail", "-taper: tail", "-taper", "a blank is missing behind the dash: write “- taper: "),
        (
            "- cut: shank, cold",
            "- cut: shank, cold, remain 90",
            "remain 90",
            "remains stands with its zone, in the",
        ),
        ("shank: square 14, long", "shank: square 14, remain 8, long", "remain 8", "did you mean remains?"),
        ("shank: square 14, long", "shank: lyke tail, long", "lyke tail", "did you mean like?"),
        ("at most 0.8", "at least 0.8", "at least 0.8", "write at most before it"),
        ("- mark out: spike", "- mark out spike", "mark out s", "a colon is missing behind mark out"),
        ("tail, 3 heats", "tail; 3 heats", "; 3", "a comma belongs behind “tail”"),
        ("tail, 3 heats", "tail 3 heats", " 3 heats", "a comma belongs behind “tail”"),
        ("at most 0.8", "at most -0.8", "at most -", "no size is less than nothing"),
        ("long 80 ±6", "long 80 +-6", " +-6", "with ±, as in 28 ±1"),
        ("long 80 ±6", "long 80+-6", "80+-6", "a blank belongs before the tolerance"),
        ("long 80 ±6", "long 80 mm±6", " mm±6", "with ±, as in 28 ±1"),
        ("14 to 3", "14 - 3", " - 3", "write to for a taper"),
        ("14, long 100", "14, twisted, long 100", "twisted, l", "as in twisted 2 turns"),
        ("taper: tail", "taper: tial", "tial", "did you mean tail?"),
    ],
)
@pytest.mark.parametrize("head", ["", "make: 2\n"])
def test_a_slip_is_told_with_what_to_write(head: str, was: str, put: str, at: str, told: str) -> None:
    text = head + SPIKE.replace(was, put, 1)
    (fault,) = faults_of(text)
    assert told in write(fault.message)
    before = text[: text.index(at)]
    assert (fault.line, fault.column) == (before.count("\n") + 1, len(before) - before.rfind("\n"))


def test_nothing_is_joined_to_itself() -> None:
    text = SPIKE.replace("  - fit: shank,", "  - fit: shank to tail and tail,")
    (fault,) = faults_of(text)
    assert "“tail” is named twice" in write(fault.message)


def test_a_list_whose_dashes_all_lack_their_blank_is_told_at_the_first() -> None:
    (fault,) = faults_of(SPIKE.replace("  - ", "  -"))
    assert "a blank belongs behind each dash: write “- mark out: spike”" in write(fault.message)
    assert fault.line == SPIKE[: SPIKE.index("- mark out")].count("\n") + 1


def test_a_semicolon_in_a_name_of_no_zone_is_no_comma() -> None:
    (fault,) = faults_of(SPIKE.replace("tail, 3 heats", "tale; 3 heats"))
    assert "there is no zone" in write(fault.message)


def test_a_profile_s_last_section_stands_at_its_end() -> None:
    drawn = "tail: profile 14 x 14, then 14 x 3 at 80, long 80 ±6"
    text = SPIKE.replace("tail: square 14 to 3, long 80 ±6", drawn).replace("taper: tail, 3", "draw: tail, 3")
    (fault,) = faults_of(text.replace("at 80,", "at 800,"))
    assert write(fault.message).startswith("the last section stands at 800 mm, and the zone is 80 mm long")
    assert read_recipe(text, "spike.yaml").drawing["tail"].limits["length"].nominal == 80.0


RING = """\
recipe: Ring
pieces:
  ring:
    metal: mild steel
    bar: round 12
    size: ring of round 12 ±0.8, inside 180 +6
usual: {at: light yellow, weld at: 1250 °C, kerf: 1.5, flux: borax}
steps:
  - cut: ring, cold
  - bend: ring, ring
  - weld shut: ring, heats 1 weld
"""


def test_a_slip_in_a_ring_s_line_is_not_told_once_more_where_it_is_bent() -> None:
    (fault,) = faults_of(RING)
    assert (fault.line, fault.column) == (6, 47)
    assert "a tolerance on one side only" in write(fault.words)


@pytest.mark.parametrize("word", ["and", "with", "to", "into", "by", "at", "all", "of", "like", "itself"])
def test_what_a_step_says_between_names_is_a_word_of_none(word: str) -> None:
    for name in (f"stem {word} hand", f"{word} stem"):
        of_piece = faults_of(STRAP.replace("  stem:", f"  {name}:"))
        assert any(f"“{word}” is a word of a step's line" in write(one.words) for one in of_piece)
        (fault, *_) = faults_of(SPIKE.replace("      shank:", f"      {name}:"))
        assert f"“{word}” is a word of a step's line" in write(fault.words)
    read_recipe(SPIKE.replace("shank", f"{word}most"), "spike.yaml")  # part of a word is none
