"""The virtual smith's own metal, and a small run of the study against the marks set before it."""

from __future__ import annotations

import ast
from math import pi, sqrt
from pathlib import Path
from statistics import mean, stdev

import pytest

from coach.ledger.verdict import PlanState
from tests.worlds import marks, metal, smithy, tools, worlds
from tests.worlds.figures import bins, figures
from tests.worlds.metal import Section, Zone
from tests.worlds.smithy import Smithy
from tests.worlds.strange import BEFORE, MOST_OFF, in_one_shop
from tests.worlds.study import studied
from tests.worlds.tools import TOOLS, Cut
from tests.worlds.worlds import WORLDS, World

#: A world without chance: nothing is off but what a world says itself.
SURE = World(scatter=0.0, mill=0.0, hunger=1.0)


@pytest.mark.parametrize("module", [metal, smithy, tools, worlds])
def test_the_made_up_world_knows_nothing_of_the_coach(module: object) -> None:
    tree = ast.parse(Path(str(module.__file__)).read_text(encoding="utf-8"))  # type: ignore[attr-defined]
    for node in ast.walk(tree):
        names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        names += [one.name for one in node.names] if isinstance(node, ast.Import) else []
        assert not any(name.split(".")[0] == "coach" for name in names)


def test_a_tapered_bar_holds_what_geometry_says() -> None:
    # Frustum of a cone: V = π L (R² + R r + r²) / 3; prismatoid: V = L (A + 4 M + a) / 6 (from memory).
    cone = Zone(Section(12.0), Section(4.0), 70.0)
    assert cone.volume == pytest.approx(pi * 70.0 * (36.0 + 12.0 + 4.0) / 3.0)
    flat = Zone(Section(26.0, 8.0), Section(14.0, 4.0), 90.0)
    assert flat.volume == pytest.approx(90.0 * (208.0 + 4.0 * 120.0 + 56.0) / 6.0)
    assert flat.holding(2.0 * flat.volume).long == pytest.approx(180.0)


@pytest.mark.parametrize("tool", TOOLS, ids=lambda tool: tool.name)
def test_a_sure_hand_on_a_true_bar_makes_the_drawing(
    tool: tools.Tool, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("MARK_MM", "SCALE_SHARE"):
        monkeypatch.setattr(smithy, name, 0.0)
    stock = {
        zone: sizes[-1].aim * 1.05 * _area(sizes) / _bar_area(tool) for zone, sizes in tool.drawing.items()
    }
    made = Smithy(tool, 1.6, SURE, stock, (1,))
    made.cut_mm = tool.drawing[made.on_bar][-1].aim
    for done, step in enumerate(tool.steps):
        assert made.nothing_prevents_it(done)
        made.done(step)
    assert made.nothing_prevents_it(len(tool.steps))
    assert made.passed()


def _area(sizes: tuple[tools.Size, ...]) -> float:
    by_name = {size.name: size.aim for size in sizes}
    near, far = smithy._sections(
        Zone(Section(1.0, 1.0 if "diameter" not in by_name else None), Section(1.0), 1.0), by_name
    )
    return Zone(near, far, 1.0).per_mm


def _bar_area(tool: tools.Tool) -> float:
    return Section(*tool.bar_sizes).area


def test_a_hungry_fire_leaves_less_and_fuller_sections_hide_metal(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("MARK_MM", "SCALE_SHARE"):
        monkeypatch.setattr(smithy, name, 0.0)
    tool = TOOLS[0]
    long = {
        name: _made(tool, world).zones["plate"].long
        for name, world in {
            "sure": SURE,
            "hungry": SURE._replace(hunger=1.8),
            "full": SURE._replace(full=0.024),
        }.items()
    }
    assert long["hungry"] < long["sure"]
    assert long["full"] == pytest.approx(long["sure"] / 1.024, rel=1e-3)


def _made(tool: tools.Tool, world: World) -> Smithy:
    made = Smithy(tool, 1.0, world, {"tongue": 40.0, "plate": 95.0, "stop": 25.0}, (1,))
    for step in tool.steps:
        if not isinstance(step, Cut):
            made.done(step)
    return made


def test_what_is_told_comes_true_as_assumed() -> None:
    moments = studied(TOOLS, 6, WORLDS["as assumed"], 7)
    told = [one for one in moments if one.verdict is PlanState.ON_PLAN]
    wrong, share = sum(not one.was_so for one in told), 1.0 - marks.ON_PLAN_TRUE["as assumed"]
    assert told
    assert wrong <= len(told) * share + 3.0 * sqrt(len(told) * share * (1.0 - share))
    # The Brier score of so few tools says little: it is held by its own scatter about what it must reach.
    squares = [(one.will_pass - one.passed) ** 2 for one in moments]
    assert figures(moments).brier <= marks.MOST_BRIER["as assumed"][0] + 3.0 * stdev(squares) / sqrt(24.0)


def test_bins_hold_every_moment_once() -> None:
    told = [(share / 20.0, share % 2 == 0) for share in range(21)]
    rows = bins(told)
    assert sum(row.moments for row in rows) == len(told)
    assert all(row.low <= row.told <= row.high for row in rows)


@pytest.mark.parametrize("world", ["fire × 1.8", "all of these"])
def test_after_ten_jobs_in_a_strange_shop_what_is_told_of_a_first_plan_comes_true(world: str) -> None:
    """A fire 1.8 times as hungry, alone and with a loose hand; the large run has a command of its own.

    Each tool is forged by one who has forged it a thousand times: so chance has hardly a part in what comes.
    """
    plans = [one for seed in range(3) for one in in_one_shop(WORLDS[world], seed, BEFORE + 4)]
    later = [one for one in plans if one.job >= BEFORE]
    off = [one.told - one.comes for one in later]
    # What three shops have learned differs from what many would have: by the scatter of what they tell.
    assert abs(mean(off)) <= MOST_OFF + 2.0 * stdev(off) / sqrt(len(off))
    assert sum(one.scale for one in later) / len(later) > 1.2  # where the book says 1
