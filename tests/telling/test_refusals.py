"""What refuses to be reckoned says so in the units asked for."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coach.finish.bevel import BarToBevel, bevel, radius_from_sagitta_mm
from coach.finish.edge import bevel_width_mm
from coach.finish.haft import MeasuredHaft, Oval, eye_for_haft, wedge_for, wood
from coach.fire.cooling import CoolingSection, Surroundings, cooling_curve
from coach.fire.glow import glow_rgb
from coach.fire.passes import Rectangle, draw
from coach.fire.scale import fire_loss_mm
from coach.fire.spreading import spread_coefficient
from coach.metals.tempering import temper_for, tempered_hrc
from coach.metals.tempering_table import TemperingRow, tempering_row
from coach.metals.thermal import conductivity_w_m_k, elongation
from coach.quantities.refusal import Refusal
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.made import make


def row(name: str) -> TemperingRow:
    found = tempering_row(name)
    assert found is not None
    return found


ASKED: tuple[Callable[[], object], ...] = (
    lambda: elongation(1400),
    lambda: conductivity_w_m_k(1300),
    lambda: glow_rgb(1700),
    lambda: fire_loss_mm(1400, 5),
    lambda: cooling_curve(CoolingSection(5, 10), 1200, -30, Surroundings(-20)),
    lambda: spread_coefficient(100, 25),
    lambda: draw(Rectangle(20, 20), Rectangle(30, 30), 15, length_mm=100),
    lambda: tempered_hrc(row("1084"), 130, 2),
    lambda: temper_for(row("1084"), (70, 72)),
    lambda: bevel(BarToBevel(40, 6, 1, 50)),
    lambda: radius_from_sagitta_mm(100, 60),
    lambda: bevel_width_mm(25, 4, 5),
    lambda: eye_for_haft(MeasuredHaft(Oval(32, 3), wood("white ash"), 8, 8, "length"), fit_mm=4),
    lambda: wedge_for(5, 1, 36),
    lambda: make("socket", {"mouth diameter": 10, "end diameter": 8, "wall": 6, "length": 50}),
)


@pytest.mark.parametrize("ask", ASKED)
def test_a_refusal_in_inches_has_no_millimetre_and_no_degree_celsius(ask: Callable[[], object]) -> None:
    with pytest.raises(Refusal) as refused:
        ask()
    told = write(refused.value.words, Shown("in"))
    assert "mm" not in told
    assert "°C" not in told
    assert any(unit in told for unit in (" in", "°F"))


def test_the_heat_of_a_refusal_is_converted() -> None:
    with pytest.raises(Refusal) as refused:
        elongation(1400)
    # Pure iron stops being austenite at 1394 °C: 1394 × 1.8 + 32 = 2541.2 and 1400 × 1.8 + 32 = 2552.
    assert "2541 °F, not at 2552 °F" in write(refused.value.words, Shown("in"))
    assert "1394 °C, not at 1400 °C" in write(refused.value.words)
