"""A hardness that no temper leaves of a steel is a finding, by a figure as by a colour, thick as thin."""

from __future__ import annotations

import pytest

from coach.ledger.weigh import Cannot, weigh
from coach.telling.words import write
from tests.ledger.recipes import planned

BAR = """\
recipe: Bar
pieces:
  bar:
    metal: "{metal}"
    bar: square {side}
    zones:
      face: square {side} ±1, long 60 ±9
steps:
  - normalise: face, at 855 °C
  - harden: face, at {heat} °C, quench {bath}
  - temper: face, {temper}
"""
C45 = ("C45", "845", "water")
STEEL = ("1095", "800", "fast oil")


# C45 is 54 to 58 HRC as quenched and 52 after 250 °C; 1095 hardened through is 66 as quenched, 65 after
# 149 °C and 62.5 after 204 °C; a thick bar is softer (facts E2, makers' tables). No temper makes it harder.
@pytest.mark.parametrize("side", ["6", "20", "35"])
@pytest.mark.parametrize(
    ("steel", "temper", "told"),
    [
        (C45, "at 240 to 260 °C, hardness 63 to 66", True),
        (C45, "at 240 to 260 °C, hardness 63 to 66, at dark straw", True),
        (C45, "hardness 63 to 66, at dark straw", True),
        (C45, "hardness 63 to 66, at straw", True),
        (C45, "hardness 63 to 66", True),
        (C45, "hardness 50 to 56", False),
        (C45, "at 240 to 260 °C, hardness 50 to 56, at dark straw", False),
        (STEEL, "at 150 °C, soak 1 h, hardness 69 to 70", True),
    ],
)
def test_no_temper_leaves_more_than_the_quench(
    side: str, steel: tuple[str, str, str], temper: str, *, told: bool
) -> None:
    metal, heat, bath = steel
    text = BAR.format(metal=metal, side=side, heat=heat, bath=bath, temper=temper)
    assert any(one.what is Cannot.TEMPER_TO for one in weigh(planned(text))) is told


@pytest.mark.parametrize("temper", ["at 150 °C, soak 1 h, hardness 63 to 66", "at straw, hardness 60 to 64"])
def test_what_a_cool_temper_leaves_of_thin_steel_is_none(temper: str) -> None:
    metal, heat, bath = STEEL
    text = BAR.format(metal=metal, side="6", heat=heat, bath=bath, temper=temper)
    assert [one for one in weigh(planned(text)) if one.what is Cannot.TEMPER_TO] == []


def test_far_below_its_table_a_temper_leaves_what_the_quench_left() -> None:
    # 5160 has 58 to 63 HRC from the quench and 58.5 after 205 °C (makers' tables and ASM, facts E2).
    text = BAR.format(
        metal="5160", side="10", heat="850", bath="oil", temper="at 120 °C, soak 2 h, hardness 54 to 57"
    )
    (found,) = [one for one in weigh(planned(text)) if one.what is Cannot.TEMPER_TO]
    assert "120 °C leaves 5160 at about" in write(found.sentence)


@pytest.mark.parametrize(
    ("metal", "heat", "bath", "temper"),
    [
        ("5160", "850", "oil", "650 to 690"),
        ("1084", "815", "fast oil", "660 to 690"),
        ("1095", "800", "fast oil", "660 to 700"),
        ("O1", "800", "oil", "660 to 700"),
        ("C45", "845", "water", "570 to 620"),
    ],
)
def test_past_the_end_of_its_table_no_steel_is_left_hard(
    metal: str, heat: str, bath: str, temper: str
) -> None:
    # 5160 has about 28 HRC after 650 °C and C45 22 after 550 (facts E2); hotter leaves no more (a law of the
    # trade: no temper makes steel harder).
    temper = f"at {temper} °C, soak 1 h, hardness {{}}"
    asked = temper.format("54 to 57"), temper.format("20 to 30")
    told = [
        [
            write(one.sentence)
            for one in weigh(planned(BAR.format(metal=metal, side="10", heat=heat, bath=bath, temper=each)))
            if one.what is Cannot.TEMPER_TO
        ]
        for each in asked
    ]
    assert len(told[0]) == 1
    assert f"is past where the table of {metal} ends: no more than" in told[0][0]
    assert told[1] == []
