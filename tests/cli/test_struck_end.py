"""A struck end that is left hard is told alike before the job, as it begins and on the card."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.conftest import Coach
from tests.ledger.test_weigh_struck import CHISEL, EDGE, OWN

# ASME B107.47M-1998 §4.3.2: the struck face of a chisel is 45 HRC at most (confirmed).
HARD = "struck end is an end that a hammer strikes, and is left 58 to 62 HRC"
STEPS = (*EDGE, OWN, "temper: struck end, at 210 °C, soak 1 h, hardness 58 to 62")


def test_a_hard_struck_end_is_told_at_its_line_in_plan_as_it_begins_and_on_the_bench(
    coach: Coach, tmp_path: Path
) -> None:
    path = tmp_path / "chisel.yaml"
    path.write_text(CHISEL + "".join(f"  - {one}\n" for one in STEPS), encoding="utf-8")
    checked = coach("check", str(path))
    assert checked.code == 1
    assert f"{path}:17:" in checked.out + checked.err
    said = [checked.out + checked.err, coach("plan", str(path)).out, coach("begin", str(path)).out]
    assert all(HARD in " ".join(one.split()) for one in said)
    assert HARD in json.dumps(coach("where", "chisel", "--json").values, ensure_ascii=False)
