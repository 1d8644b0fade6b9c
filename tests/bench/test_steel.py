"""What the coach knows of the steel at a step: its heats, its quench, its temper, its edge, its head."""

from __future__ import annotations

import pytest

from coach.metals.hardening import COUPON_TEST
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER, begun

KNIFE = """
title: Knife
pieces: {blade: {metal: "1084", stock: {form: flat, width: 30, thickness: 5}}}
drawing: {blade: {form: flat, width: 30 ±1, thickness: 3 ±0.3, length: 150 ±20}}
steps:
  - {do: normalise, zone: blade}
  - {do: harden, zone: blade, to: {temperature: 800 to 830 °C}, quench: oil}
  - {do: temper, zone: blade, to: {temperature: 230 °C, soak: 1.5 h}}
  - {do: grind, zone: blade, to: {thickness: 3 ±0.3, edge angle: 30}, free: length}
"""


def know(text: str, number: int, *, units: Shown | None = None) -> str:
    session = begun(text)
    if units is not None:
        session.system = units.system
    for _ in range(number - 1):
        session.done()
    step = session.standing().step
    assert step is not None
    return " ".join(write(words, Shown(session.system)) for words in step.know)


def test_the_magnet_is_told_with_the_heat_to_go_on_to() -> None:
    told = know(KNIFE, 2)
    # Andrews 1965 (confirmed second-hand), C .85, Mn .75, Si .20: Ac1 = 723 - 10.7·0.75 + 29.1·0.20 = 720.8.
    assert "about 721 °C" in told
    assert "800 °C to 830 °C" in told  # published practice for 1075 to 1084 (confirmed second-hand)
    # 64 to 66 HRC from 0.6 % carbon on (from memory), 1095 as quenched 66 (confirmed second-hand).
    assert "1084 is 63 to 67 HRC: a file skates" in told
    # Oil hardens it through to some 3 mm, fast oil to 6; the blade is about 5 mm thick.
    assert "Only where it hardens through, 1084" in told
    assert "Quenched right, 1084" in know(KNIFE.replace("quench: oil", "quench: fast oil"), 2)


def test_in_inches_heats_are_told_in_fahrenheit() -> None:
    told = know(KNIFE, 2, units=Shown("in"))
    assert "1472 °F to 1526 °F" in told
    assert "°C" not in told


def test_a_milder_and_a_fiercer_quench_than_the_grade_s_own_are_told_apart() -> None:
    assert "1084 is quenched in fast oil; oil may leave it soft where it is thicker than about 3 mm." in know(
        KNIFE, 2
    )
    # Hot salt is used against cracks (from memory).
    for metal in ("1084", "O1", "5160"):
        salt = know(KNIFE.replace("quench: oil", "quench: salt").replace("1084", metal), 2)
        assert f"{metal} is quenched in" in salt
        assert "salt is kinder to it, and may leave it soft where it is thick" in salt
        assert "salt can crack it" not in salt
    assert "water can crack it" in know(KNIFE.replace("quench: oil", "quench: water"), 2)
    assert "is quenched in" not in know(KNIFE.replace("quench: oil", "quench: fast oil"), 2)


def test_a_heat_outside_the_window_is_told() -> None:
    assert "so hot that its grain grows" in know(KNIFE.replace("800 to 830 °C", "900 °C"), 2)
    assert "too cold to harden through" in know(KNIFE.replace("800 to 830 °C", "740 °C"), 2)


def test_a_temper_tells_the_hardness_it_leaves() -> None:
    # 5 mm less what four heats scale, so hardened through in fast oil: 1095's bands, 62.5 HRC at 204 and 61.5
    # at 232 °C (confirmed second-hand), less 2 for its carbon (judgement): 59.6 at 230 °C.
    fast = KNIFE.replace("quench: oil", "quench: fast oil")
    assert fast != KNIFE
    assert "1084 is left at 60 ±2 HRC. It is 4.9 mm thick, quenched in fast oil." in know(fast, 3)
    # Ordinary oil may leave it a bar's, 388 HB, 42 HRC after 205 °C (handbook, from memory).
    assert "1084 is left at 60 HRC, or from 40 to 62 HRC. It is 4.9 mm thick, quenched in oil." in know(
        KNIFE, 3
    )


def test_a_temper_asked_for_by_hardness_tells_the_heat_and_the_colour() -> None:
    told = know(KNIFE.replace("soak: 1.5 h", "soak: 1.5 h, hardness: 50 to 55"), 3)
    # The same table read the other way: 55 HRC at 295 °C and 50 at 352 °C, on the way from 51.5 at 343 °C to
    # 47 at 371 °C, as 1075 is told in strip (a metal merchant's sheet, confirmed second-hand).
    assert "For 50 to 55 HRC: 295 to 352 °C" in told
    assert "brittle" in told, "a struck tool is told of the embrittling heats"


def test_a_run_of_colours_is_told_for_what_it_is() -> None:
    told = know(KNIFE.replace("temperature: 230 °C, soak: 1.5 h", "temperature: 290 °C"), 3)
    assert "By colour, some 3 minutes at 290 °C" in told
    assert "in an hour and a half" in told


def test_the_width_of_the_bevel_goes_with_its_angle() -> None:
    # On 4.94 mm, that is 5 less what four heats scale off both faces (by Païdassi's law 0.0083 mm three times
    # and 0.0062): 4.94 / (2 tan 15°) = 9.2 mm on either side, 4.94 / tan 30° = 8.6 mm on one side alone.
    assert "is a bevel 9.2 mm wide on either side, or 8.6 mm on one side alone" in know(KNIFE, 4)
    # A rule laid on the face reads its slope: 4.94 / (2 sin 15°) = 9.5 mm, 4.94 / sin 30° = 9.9 mm.
    assert "on its slope the ground face is 9.5 mm, or 9.9 mm" in know(KNIFE, 4)


def test_an_unknown_steel_is_given_the_coupon_test_and_no_figure() -> None:
    unknown = KNIFE.replace('"1084"', "unknown spring steel")
    told = know(unknown, 2)
    assert all(sentence in told for sentence in COUPON_TEST)
    assert "HRC" not in told
    assert "No tempering table is known" in know(unknown, 3)


def test_normalising_is_told_for_the_steel_alone() -> None:
    assert know(KNIFE, 1).startswith("1084: ")


def test_a_normalising_cooler_than_its_steel_s_own_says_by_which_heat_to_go() -> None:
    # 1060 is normalised from 870 to 900 °C (published practice, as its grade's file says), 1075 from 845.
    cooler = KNIFE.replace("zone: blade}\n", "zone: blade, temperature: 845 °C}\n", 1)
    assert "cooler than 1060 is normalised at: go by the heats said here" in know(
        cooler.replace('"1084"', '"1060"'), 1
    )
    assert "cooler than" not in know(cooler.replace('"1084"', '"1075"'), 1)


@pytest.mark.parametrize("metal", ["wrought iron", "mild steel"])
def test_iron_is_told_nothing_of_hardening(metal: str) -> None:
    assert know(KNIFE.replace('"1084"', metal), 2) == ""


def test_a_planned_heat_that_burns_is_told_at_a_treatment_too() -> None:
    assert "1084 must be feared to burn" in know(KNIFE.replace("800 to 830 °C", "1300 °C"), 2)
    assert "feared to burn" not in know(KNIFE, 2)


def test_a_typed_heat_that_burns_is_told_with_the_reading() -> None:
    session = begun(KNIFE)
    session.done()
    fine = session.read("blade.temperature", "820 °C")
    burnt = session.read("blade.temperature", "1300 °C")
    assert not fine.beware
    assert burnt.bad_news
    assert "1084 must be feared to burn" in answer_text(burnt, Shown())


def test_a_coupon_is_broken_before_two_metals_are_welded_and_is_told_of_once_for_each_weld() -> None:
    session = begun(HAMMER)
    told = []
    while (step := session.standing().step) is not None:
        told += [step.title for words in step.know if "weld a coupon of both" in write(words)]
        session.done()
    assert len(told) == 1
    assert "ack" in told[0]  # the first of them there is


UPSET = """
title: Bolt
pieces: {bolt: {metal: mild steel, stock: {form: square, side: 12}, zones: [head]}}
drawing: {head: {form: square, side: 18 ±1, length: 30 ±6, take up: length}}
steps:
  - {do: upset, zone: head, to: {side: 18 ±1}, heats: 3, temperature: 1200 °C}
"""


def test_more_than_three_thicknesses_that_stand_free_are_told_of_before_the_upset() -> None:
    # Forging Industry Association: at most three diameters in one blow. 18² · 30 / 12² = 67.5 mm, 5.6 times.
    step = begun(UPSET).standing().step
    assert step is not None
    told = " ".join(write(words) for words in step.advice)
    assert "more than 3 times bends" in told
    assert "heat 36 mm at a time" in told
    short = begun(UPSET.replace("30 ±6", "12 ±3")).standing().step
    assert short is not None
    assert "at a time" not in " ".join(write(words) for words in short.advice)


def test_a_temper_below_the_table_is_told_with_the_doubt_of_where_the_table_begins() -> None:
    # Fast oil hardens 5 mm through; thin, 1084 is told from 149 °C, give or take 2 HRC (facts E2): the doubt
    # does not end where the table does.
    told = know(KNIFE.replace("230 °C", "130 °C").replace("quench: oil", "quench: fast oil"), 3)
    assert "harder than the tables tell" in told
    assert "±" in told.partition("begin with ")[2].partition(",")[0]
