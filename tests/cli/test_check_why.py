"""`coach check` says of a recipe that is tight which size makes it so, and which step leaves that size."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.conftest import Coach

SPIKE = """\
recipe: Spike
pieces:
  spike:
    metal: mild steel
    bar: round 12
    zones:
      head: round 12, long 30 ±3
      point: round 12 to 4 ±0.3, long 80 ±8
usual: {at: 1100 °C}
steps:
  - mark out: spike
  - cut: point, cold
  - taper: point, round 12 to 4.3, 2 heats
"""


def test_a_tight_recipe_is_told_its_size_and_its_step_where_that_stands(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "spike.yaml"
    path.write_text(SPIKE, encoding="utf-8")
    told = coach("check", str(path)).out
    assert "tight" in told
    (why,) = [line for line in told.splitlines() if line.startswith(f"{path}:13:")]
    assert "Point: the end diameter comes out at 4" in why
    assert "step 3, Taper the point" in why
    (checked,) = json.loads(coach("check", str(path), "--json").out)["recipes"]
    assert (checked["decided_by"]["step"], checked["decided_by"]["line"]) == (3, 13)
    assert checked["why"]


def test_a_recipe_on_plan_needs_no_reason(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "spike.yaml"
    path.write_text(SPIKE.replace("±0.3", "±1.5").replace("to 4.3,", "to 4,"), encoding="utf-8")
    assert coach("check", str(path)).out.count("\n") == 1


def test_a_size_that_no_step_works_is_told_at_its_zone(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "spike.yaml"
    tight = SPIKE.replace("head: round 12, long", "head: round 12 ±0.35, long").replace(
        "±0.3, long", "±1.5, long"
    )
    tight = tight.replace("to 4.3, 2 heats", "to 4, 2 heats, also hot head") + "  - normalise: all of spike\n"
    path.write_text(tight.replace("long 80 ±8", "long 80 ±14"), encoding="utf-8")
    (why,) = [line for line in coach("check", str(path)).out.splitlines() if "too near" in line]
    assert why.startswith(f"{path}:7:13: Head: the diameter comes out at")
    assert "as step" not in why
    (checked,) = json.loads(coach("check", str(path), "--json").out)["recipes"]
    assert (checked["decided_by"]["step"], checked["decided_by"]["line"]) == (0, 7)
