"""What is found wrong stands at the line that says it: a zone's size at the zone, a step's at the step."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Coach

ADZE = """\
recipe: Adze
pieces:
  adze:
    metal: C80
    bar: square 20
    zones:
      blade: 40 ±1 x 8 ±0.8, long 90 ±8
      poll: square 20 ±1, long 40 ±3
usual: {at: orange}
steps:
  - mark out: adze
  - draw: blade, 3 heats
"""


@pytest.mark.parametrize(
    ("was", "put", "place", "told"),
    [
        # The zone's own size, which the step only takes from it.
        ("x 8 ±0.8", "x 8 ±0.01", "7:14", "held closer"),
        # The step's own.
        ("draw: blade, 3 heats", "draw: blade, 40 x 8 ±0.01, 3 heats", "12:5", "held closer"),
        ("draw: blade, 3 heats", "draw: blade, 3 heats, at 700 °C", "12:5", "no heat to draw"),
    ],
)
def test_a_finding_stands_where_its_slip_is(
    coach: Coach, tmp_path: Path, was: str, put: str, place: str, told: str
) -> None:
    recipe = tmp_path / "adze.yaml"
    recipe.write_text(ADZE.replace(was, put), encoding="utf-8")
    lines = [line for line in coach("check", str(recipe)).out.splitlines() if told in line]
    assert [line.removeprefix(f"{recipe}:").partition(": ")[0] for line in lines] == [place]


def test_a_heat_that_is_said_once_for_many_steps_is_told_once_and_where_it_is_said(
    coach: Coach, tmp_path: Path
) -> None:
    recipe = tmp_path / "adze.yaml"
    steps = "".join(f"  - draw: blade, {thick} x 8, 3 heats\n" for thick in (30, 34, 36))
    text = ADZE.replace("orange", "dark cherry").replace(
        "  - draw", f"{steps}  - upset: poll, 1 heat\n  - draw"
    )
    recipe.write_text(text, encoding="utf-8")
    (line,) = (line for line in coach("check", str(recipe)).out.splitlines() if "no heat to" in line)
    assert line.removeprefix(f"{recipe}:").startswith("9:13: Step 2, Draw the blade: 635 °C is no heat")
    assert line.endswith("The same heat is that of steps 3 to 6.")
    recipe.write_text(ADZE.replace("usual: {at: orange}", "usual: {at: dark cherry}"), encoding="utf-8")
    assert "The same heat" not in coach("check", str(recipe)).out


def test_a_slip_stands_before_what_follows_from_it(coach: Coach, tmp_path: Path) -> None:
    file = tmp_path / "pintle.yaml"
    file.write_text(
        "recipe: Pintle\npieces:\n  pintle:\n    metal: mild steel\n    bar: square 200\n    zones:\n"
        "      pin: round 14 ±0.5, long 50 ±5\n      knee: square 20, long 40 ±4\n"
        "      spike: square 18 to 5, long 120 ±12\nusual: {at: yellow}\nsteps:\n  - mark out: pintle\n"
        "  - draw: pin, 2 heats\n  - taper: spike, 3 heats\n  - bend: knee, angle 90°, radius 14\n",
        encoding="utf-8",
    )
    lines = [line.partition("pintle.yaml")[2] for line in coach("check", str(file)).out.splitlines()]
    assert lines[0].startswith(":5:10: The bar of pintle is 200 mm across, and pin, knee and spike are drawn")
    assert lines[0].endswith(" more may follow from it: coach plan tells all.")
    assert len([line for line in lines if not line.startswith(": worth a look")]) == 2


LAYERS = """\
recipe: Marking knife
scale: none
pieces:
  billet:
    stack:
      - 1084, 25 x 4
      - mild steel, 25 x 4
      - 1084, 25 x 4
    size: 22 x 3, long 80 ±8
usual: {at: light yellow, kerf: 2, weld at: 1140 °C, flux: borax}
steps:
  - cut: billet, cold
  - weld shut: billet
  - draw: billet, 30 x 12
  - draw: billet
"""


def test_what_is_asked_of_a_step_stands_before_what_is_wrong_with_a_later_one(
    coach: Coach, tmp_path: Path
) -> None:
    """300 mm² are no 66 mm² for a weld; that the draw behind it has too little follows from that."""
    path = tmp_path / "layers.yaml"
    path.write_text(LAYERS, encoding="utf-8")
    told = coach("check", str(path)).out.splitlines()
    places = [int(line.split(":")[1]) for line in told if "worth a look" not in line]
    assert 13 in places
    assert 14 in places
    assert places == sorted(places)
