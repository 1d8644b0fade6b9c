"""`coach check` tells once what is found of pieces made alike, and says how a margin is written in."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Coach, coach

__all__ = ["coach"]

HINGES = """\
recipe: A pair of hinges
make: 2
pieces:
  leaf:
    metal: mild steel
    bar: 30 x 4, long 600
    zones:
      lug: 30 x 4, long 22 ±3, round hole 5.5
      wing: 30 x 4 tapering to 46 x 2, long 45 ±5
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: leaf
  - cut: wing, cold
  - spread: wing, 30 x 4 tapering to 46 x 2, wide free, 3 heats
  - punch: lug
"""


def checked(coach: Coach, folder: Path, text: str) -> list[str]:
    path = folder / "hinges.yaml"
    path.write_text(text, encoding="utf-8")
    return " ".join(coach("check", str(path)).out.split()).split(str(path))[1:]


def test_a_width_left_to_the_metal_is_told_once_with_what_to_write(coach: Coach, tmp_path: Path) -> None:
    found = [one for one in checked(coach, tmp_path, HINGES) if one.startswith(":14:5:")]
    assert len(found) == 1
    assert "the width of leaf 1 wing" in found[0]
    assert "In step 5 its width follows from the metal: write long free there" in found[0]


@pytest.mark.parametrize("instead", ["long free, 3", "3"])
def test_with_it_written_or_nothing_said_nothing_is_found(coach: Coach, tmp_path: Path, instead: str) -> None:
    told = checked(coach, tmp_path, HINGES.replace("wide free, 3", instead))
    assert not any(one.startswith(":14") for one in told)


def test_where_no_margin_is_asked_for_it_is_told_how(coach: Coach, tmp_path: Path) -> None:
    told = checked(coach, tmp_path, HINGES)
    assert any("With margin: enough for 95 % under usual, coach check --fix" in one for one in told)
    fixed = HINGES.replace("kerf: 2}", "kerf: 2, margin: enough for 95 %}").replace("wide free", "long free")
    assert not any("With margin" in one for one in checked(coach, tmp_path, fixed))
