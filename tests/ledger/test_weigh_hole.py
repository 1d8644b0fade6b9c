"""A hole that is to come out smaller or turned, and cheeks too thin to last, are told at their step."""

from __future__ import annotations

import pytest

from coach.bench.in_file import findings_in_file
from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.ledger.weigh import Cannot, weigh
from coach.ledger.working import LedgerError
from coach.recipe.reader import read_recipe
from coach.telling.words import write

BLOCK = """\
recipe: Eye block
pieces:
  head:
    metal: C45
    bar: square 30
    size: WIDE x 28, long 50 ±3, FINISHED through its thickness
usual: {at: light orange}
steps:
  - punch: head, PUNCHED through its thickness, slug 5
  - OPEN: head
"""


def block(punched: str, finished: str, open_by: str = "drift", wide: str = "36") -> str:
    text = BLOCK.replace("PUNCHED", punched).replace("FINISHED", finished)
    return text.replace("OPEN", open_by).replace("WIDE", wide)


def holes_told(text: str) -> list[str]:
    plan = look_back(read_recipe(text, "block.yaml"))
    found = [one for one in weigh(plan) if one.what is Cannot.MAKE_SIZE and "hole" in write(one.sentence)]
    assert all((one.step, one.zone) == (2, "head") for one in found)
    return [write(one.sentence) for one in found]


@pytest.mark.parametrize("open_by", ["drift", "file", "punch"])
@pytest.mark.parametrize(
    ("punched", "finished", "told"),
    [
        ("round hole 20", "round hole 10", "is 20 mm round and is to come out 10 mm round"),
        ("slot hole 28 x 12", "oval hole 15 x 12", "is 28 mm × 12 mm and is to come out 15 mm × 12 mm"),
        ("slot hole 22 x 9", "oval hole 15 x 26", "22 mm along the bar and 9 mm across it"),
    ],
)
def test_what_opens_a_hole_neither_closes_nor_turns_it(
    open_by: str, punched: str, finished: str, told: str
) -> None:
    # Elementary geometry: a drift stretches the way round a hole, and a file takes metal off its wall.
    text = block(punched, finished, open_by)
    if open_by == "file":
        text = text.replace("file: head", f"file: head, {finished}")
    if open_by == "punch":
        text = text.replace("punch: head\n", f"punch: head, {finished}, slug 2\n")
    (words,) = holes_told(text)
    assert told in words


@pytest.mark.parametrize(
    ("punched", "finished"),
    [
        ("slot hole 22 x 9", "oval hole 26 x 15"),
        (
            "slot hole 28 x 8",
            "oval hole 25 x 18",
        ),  # shorter, for it is opened so much: 65.1 mm round, then 68
        ("round hole 10", "round hole 10"),
        ("slot hole 18 x 9", "round hole 20"),
    ],
)
def test_a_hole_that_opens_is_let_be(punched: str, finished: str) -> None:
    assert holes_told(block(punched, finished)) == []


def asked(text: str) -> list[str]:
    plan = look_back(read_recipe(text, "block.yaml"))
    return [write(one.sentence) for one in questions(plan) if "cheeks" in write(one.sentence)]


def cheeks(thick: str) -> list[str]:
    # Through the width the cheeks are of the thickness: (thickness - hole width) / 2.
    text = block("slot hole 22 x 9", "oval hole 26 x 15").replace("its thickness", "its width")
    return asked(text.replace("x 28,", f"x {thick},"))


@pytest.mark.parametrize(("thick", "cheek"), [("17 ±0.5", "1 mm"), ("17.8 ±0.5", "1.4 mm")])
def test_cheeks_that_the_drift_tears_are_asked_about(thick: str, cheek: str) -> None:
    (words,) = cheeks(thick)
    assert f"the cheeks of head are {cheek} thick" in words


def test_cheeks_of_a_hammer_are_let_be() -> None:
    assert cheeks("25 ±1") == []


@pytest.mark.parametrize(("slug", "told"), [("50", True), ("31", True), ("28", False), ("5", False)])
def test_a_slug_is_no_thicker_than_what_it_is_punched_out_of(slug: str, told: bool) -> None:
    text = block("slot hole 22 x 9", "oval hole 26 x 15").replace("slug 5", f"slug {slug}")
    found = weigh(look_back(read_recipe(text, "block.yaml")))
    slugs = [one for one in found if "its slug is to be" in write(one.sentence)]
    assert [one.step for one in slugs] == ([1] if told else [])


@pytest.mark.parametrize(
    ("proud", "told"),
    [
        ("500", "nothing of it is left to hold"),
        ("100", "proud of its eye: is it meant"),
        ("5", ""),
    ],
)
def test_a_haft_that_stands_out_of_its_eye_too_far_is_told(proud: str, told: str) -> None:
    head = block("slot hole 22 x 9", "oval hole 26 x 15")
    text = f"{head}  - haft: head, haft length 320, proud {proud}\n"
    plan = look_back(read_recipe(text, "block.yaml"))
    sentences = [one.sentence for one in weigh(plan)] + [one.sentence for one in questions(plan)]
    words = [one for one in map(write, sentences) if "proud" in one]
    assert len(words) == bool(told)
    assert all(told in one for one in words)


def test_a_hole_longer_than_the_bar_of_its_zone_is_named_at_its_punch() -> None:
    """By hand: the finished eye holds 30 · 8 · 34 − π/4 · 20² · 8 = 5647 mm³. The slug takes 417 mm³ (a slot
    of 36 × 6, 2 mm thick) and five heats at 0.034 mm a face some 270 mm³: 6330 mm³, 21.1 mm of bar 30 × 10.
    """
    strap = """\
recipe: Strap
pieces:
  strap:
    metal: mild steel
    bar: 30 x 10
    zones:
      eye: 30 x 8, long 34, round hole 20
      tail: 30 x 10, long 100
usual: {at: yellow}
steps:
  - mark out: strap
  - punch: eye, slot hole 36 x 6 through its thickness
  - drift: eye
  - cut: tail, cold
"""
    with pytest.raises(LedgerError) as refused:
        look_back(read_recipe(strap, "strap.yaml"))
    told = write(refused.value.words)
    assert (refused.value.step, told[:62]) == (
        2,
        "Step 2, Punch the eye: the hole length of 36 mm leaves no end ",
    )
    assert float(told.split("a length of ")[1].split(" mm")[0]) == pytest.approx(21.1, abs=0.6)


# What a punch or a drift is asked for stands at its own step, even where that only says "as drawn".
@pytest.mark.parametrize(
    ("steps", "told"),
    [
        ("  - punch: head, slug 50\n", "its slug is to be"),
        ("  - drift: head\n", "has no hole there"),
    ],
)
def test_a_hole_that_cannot_be_opened_so_is_told_at_its_step(steps: str, told: str) -> None:
    text = block("", "slot hole 22 x 9").partition("  - punch")[0] + steps
    recipe = read_recipe(text, "block.yaml")
    found = findings_in_file(recipe, weigh(look_back(recipe)))
    places = [(one.line, one.column) for one in found if told in write(one.sentence)]
    assert places == [(9, 5)]


# Cold, a punch goes through no more than its hole is wide (common practice, no source).
@pytest.mark.parametrize(
    ("thick", "heat", "told"), [(12, "cold", True), (5, "cold", False), (12, "2 heats", False)]
)
def test_a_hole_punched_cold_through_more_than_it_is_wide_is_asked_about(
    thick: int, heat: str, told: bool
) -> None:
    text = f"""\
recipe: Strap
pieces:
  strap:
    metal: mild steel
    bar: 25 x {thick}
    size: 25 x {thick}, long 120 ±6, three round holes 5
usual: {{at: light orange, kerf: 2}}
steps:
  - cut: strap, cold
  - pierce: strap, {heat}
"""
    asked = [write(one.sentence) for one in questions(look_back(read_recipe(text, "strap.yaml")))]
    found = [one for one in asked if "punched cold" in one]
    assert len(found) == told
    assert all(one.startswith("Step 2, Pierce the strap: a hole of 5 mm is punched cold") for one in found)
