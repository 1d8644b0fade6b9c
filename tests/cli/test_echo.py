"""`coach check --echo` says what each line was taken to mean, and asks about what no grammar can catch."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coach.places import bundled_recipes
from tests.cli.conftest import Coach
from tests.recipes.texts import HAMMER, PIN


def echoed(coach: Coach, folder: Path, text: str) -> str:
    path = folder / "tool.yaml"
    path.write_text(text, encoding="utf-8")
    return " ".join(coach("check", "--echo", str(path)).out.split())


def test_zones_and_steps_are_told_with_their_line_and_all_that_was_left_out(
    coach: Coach, tmp_path: Path
) -> None:
    told = echoed(coach, tmp_path, PIN)
    assert "line 5 bar of pin mild steel, round, diameter 12 mm" in told
    assert "line 6 pin round taper, diameter 12 ±0.6 mm, end diameter 6 ±0.5 mm, length 100 ±3 mm," in told
    assert "line 8 step 1 taper pin, to a round taper form" in told
    assert "pin, finished:" in told


def test_it_is_told_in_the_units_of_the_file(coach: Coach, tmp_path: Path) -> None:
    told = echoed(
        coach,
        tmp_path,
        PIN.replace("recipe:", "units: in\nrecipe:")
        .replace("12 to 6 ±0.5", "1/2 to 1/4")
        .replace("12", "1/2")
        .replace("100 ±3", "4 ±1/8"),
    )
    assert "line 7 pin round taper, diameter 1/2 " in told
    assert " mm" not in told


def test_every_line_that_says_a_size_is_echoed_once(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "tool.yaml"
    path.write_text(HAMMER, encoding="utf-8")
    (one,) = json.loads(coach("check", "--echo", str(path), "--json").out)["recipes"]
    rows = one["understood"]
    assert [row["what"] for row in rows[:4]] == ["bar of body", "poll", "eye", "peen"]
    assert [row["what"] for row in rows if row["what"].startswith("step")] == [
        f"step {n}" for n in range(1, 11)
    ]
    lines = HAMMER.splitlines()
    for row in rows:
        name = row["what"].split()[-1]
        assert row["what"].startswith(("step", "bar")) or lines[row["line"] - 1].split(":")[0].strip() in (
            name,
            "size",
        )


@pytest.mark.parametrize(
    ("was", "slip", "told"),
    [
        (
            "round 12 to 6 ±0.5",
            "round 12 to 60 ±5",
            "end diameter of pin is to be 60 mm, from a bar of 12 mm",
        ),
        ("round 12 to 6 ±0.5", "round 1.2 to 0.6", "diameter of pin is to be 1.2 mm, from a bar of 12 mm"),
        ("long 100 ±3", "long 100 ±50", "length of pin may be 100 ±50 mm"),
    ],
)
def test_a_lost_decimal_mark_is_asked_about_at_its_line(
    coach: Coach, tmp_path: Path, was: str, slip: str, told: str
) -> None:
    path = tmp_path / "tool.yaml"
    text = PIN.replace(was, slip.replace("round 12 to 60", "round 12 tapering to 60"))
    assert text != PIN
    path.write_text(text, encoding="utf-8")
    out = " ".join(coach("check", str(path)).out.split())
    assert f"{path}:6:11: The {told}" in out


@pytest.mark.parametrize("name", sorted(path.stem for path in bundled_recipes().glob("*.yaml")))
def test_nothing_on_the_shelf_is_asked_about(coach: Coach, name: str) -> None:
    (one,) = json.loads(coach("check", "--echo", name, "--json").out)["recipes"]
    assert one["questions"] == []
    assert one["drawn"]


TAPERS = """\
recipe: Trial
pieces:
  one:
    metal: mild steel
    bar: square 16
    zones:
      point: square 16 to 4, long 60
      neck: 16 x 16 to 12 x 12, long 50
      butt: 12 x 12 to 8 x 8, long 60
steps:
  - taper: point
  - taper: neck
  - cut: butt, cold
  - taper: butt
"""


@pytest.mark.parametrize(
    "said",
    [
        "from where it meets neck out to its end line 8 neck",
        "from where it meets point to where it meets butt line 9 butt",
        "from where it meets neck out to its end line 11 step 1",
    ],
)
def test_a_taper_is_told_with_the_way_it_runs(coach: Coach, tmp_path: Path, said: str) -> None:
    assert said in echoed(coach, tmp_path, TAPERS)
