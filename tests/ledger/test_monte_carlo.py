"""The doubts carried along by slopes against a thousandfold made-up forge.

Each simulation walks the job in full, without any linearising: it draws every size and loss by chance and
solves the solids with the forms, whose volumes are checked against meshes elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np
import pytest

from coach.forms import Form
from coach.ledger.forecast import forecast
from coach.ledger.workpiece import at_stock
from tests.ledger.recipes import DRAW, EYE, LAID, planned
from tests.made import make

SAMPLES = 2500
MARK_MM = 0.7  # the recipe's own, when nothing is said
BAR_SHARE = 0.005
SCALE_SHARE = 0.4
FORGING_MM, WELDING_MM, TREATMENT_MM = 0.03, 0.08, 0.01


def limited(random: np.random.Generator, low: float, high: float) -> float:
    """A size worked to its limits: nineteen in twenty land between them."""
    return float(random.normal((low + high) / 2, (high - low) / 4))


def surface(form: Form, start: bool, finish: bool) -> float:
    ends = start * form.end_area_mm2("start") + finish * form.end_area_mm2("finish")
    return form.side_surface_mm2() + ends


def scaled(
    before: Form, draft: Form, free: str, volume: float, face_mm: float, bare: tuple[bool, bool]
) -> Form:
    """The solid after a step whose heats scale the mean of the surfaces before and after."""
    form = draft.solved(free, volume)
    for _ in range(4):
        scale = face_mm * (surface(before, *bare) + surface(form, *bare)) / 2
        form = draft.solved(free, volume - scale)
    return form


def flat(width: float, thickness: float, length: float = 100.0) -> Form:
    return make("flat", {"width": width, "thickness": thickness, "length": length})


def drawn(random: np.random.Generator, start_mm3: Mapping[str, float]) -> tuple[float, float]:
    """Volume and length of the drawn strap."""
    wide, thick = random.normal(40, 40 * BAR_SHARE), random.normal(12, 12 * BAR_SHARE)
    bar = flat(wide, thick, start_mm3["strap"] / 480 + random.normal(0, MARK_MM))
    face = 3 * FORGING_MM * random.normal(1, SCALE_SHARE)
    draft = flat(limited(random, 39, 41), limited(random, 7.5, 8.5))
    ended = scaled(bar, draft, "length", bar.volume_mm3(), face, (True, True))
    return ended.volume_mm3(), ended.size_mm("length")


def punched_and_drifted(random: np.random.Generator, start_mm3: Mapping[str, float]) -> tuple[float, float]:
    """Volume and width of the hammer's eye."""
    side = random.normal(38, 38 * BAR_SHARE)
    bar = make("square", {"side": side, "length": start_mm3["block"] / 38**2 + random.normal(0, MARK_MM)})
    factor = random.normal(1, SCALE_SHARE)
    slot = 10 * 20 + np.pi * 25  # a stadium of 30 × 10
    left = bar.volume_mm3() - slot * 6 * random.normal(1, 0.3)
    # Bare sizes take the default limits: 5 % of 38, 1.5 mm of 44, 3 % of 30, half a millimetre of 10.
    hole = {
        "hole_length": limited(random, 29.1, 30.9),
        "hole_width": limited(random, 9.5, 10.5),
    }
    block = {"thickness": limited(random, 36.1, 39.9), "length": limited(random, 42.5, 45.5), "width": 40.0}
    punched = scaled(
        bar,
        make("eyed", {**block, **hole}, {"hole": "slot"}),
        "width",
        left,
        3 * FORGING_MM * factor,
        (True, True),
    )
    sizes = {
        "hole_length": limited(random, 31, 33),
        "hole_width": limited(random, 19.2, 20.8),
        "thickness": limited(random, 37, 39),
        "length": limited(random, 42, 46),
        "width": 49.0,
    }
    draft = make("eyed", sizes, {"hole": "oval"})
    ended = scaled(punched, draft, "width", punched.volume_mm3(), 2 * FORGING_MM * factor, (True, True))
    return ended.volume_mm3(), ended.size_mm("width")


def welded(random: np.random.Generator, start_mm3: Mapping[str, float]) -> tuple[float, float]:
    """Volume and length of the steeled blade."""
    factor = random.normal(1, SCALE_SHARE)
    wide, thick = random.normal(40, 40 * BAR_SHARE), random.normal(16, 16 * BAR_SHARE)
    ends = random.normal(0, MARK_MM) - random.normal(0, MARK_MM)
    iron = flat(wide, thick, start_mm3["blade"] / 640 + ends)
    steel_bar = flat(
        random.normal(40, 40 * BAR_SHARE),
        random.normal(6, 6 * BAR_SHARE),
        start_mm3["bit"] / 240 + random.normal(0, MARK_MM),
    )
    steel_draft = flat(limited(random, 39, 41), limited(random, 4.6, 5.4))
    steel = scaled(
        steel_bar, steel_draft, "length", steel_bar.volume_mm3(), FORGING_MM * factor, (True, True)
    )
    steel = scaled(steel, steel, "length", steel.volume_mm3(), WELDING_MM * factor, (True, True))
    iron = scaled(iron, iron, "length", iron.volume_mm3(), WELDING_MM * factor, (False, True))
    both = (iron.volume_mm3() + steel.volume_mm3()) * (1 - 0.01 * random.normal(1, 0.5))
    joined_draft = flat(limited(random, 39.5, 42.5), limited(random, 16, 18))
    joined = joined_draft.solved("length", both)
    for _ in range(4):
        joined = joined_draft.solved("length", both - 2 * WELDING_MM * factor * surface(joined, False, True))
    draft = flat(limited(random, 40.5, 43.5), limited(random, 9.3, 10.7))
    ended = scaled(joined, draft, "length", joined.volume_mm3(), 3 * FORGING_MM * factor, (False, True))
    ended = scaled(ended, ended, "length", ended.volume_mm3(), 2 * TREATMENT_MM * factor, (False, True))
    return ended.volume_mm3(), ended.size_mm("length")


Simulation = Callable[[np.random.Generator, Mapping[str, float]], tuple[float, float]]


@pytest.mark.parametrize(
    ("text", "zone", "free", "simulate"),
    [
        (DRAW, "strap", "length", drawn),
        (EYE, "block", "width", punched_and_drifted),
        (LAID, "blade", "length", welded),
    ],
    ids=["draw", "punch and drift", "weld with laid steel"],
)
def test_the_forecast_has_the_mean_and_the_doubt_of_a_made_up_forge(
    text: str, zone: str, free: str, simulate: Simulation
) -> None:
    plan = planned(text)
    found = forecast(plan, None, at_stock(plan), 1).zones[zone]
    random = np.random.default_rng(1926)
    tries = np.array([simulate(random, plan.start_mm3) for _ in range(SAMPLES)])
    volume, size = tries[:, 0], tries[:, 1]
    expected = next(one for one in found.sizes if one.dimension == free)
    assert found.volume.value == pytest.approx(volume.mean(), rel=0.005)
    assert found.volume.doubt == pytest.approx(volume.std(), rel=0.05)
    assert expected.expected.value == pytest.approx(size.mean(), rel=0.01)
    assert expected.expected.doubt == pytest.approx(size.std(), rel=0.05)
