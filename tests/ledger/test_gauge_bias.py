"""How far a gauge is trusted on forged metal, and what its readings teach of the gauge itself."""

from __future__ import annotations

import pytest

from coach.ledger.reading import Reading, cold_reading, taken_in
from coach.ledger.workpiece import at_stock
from coach.operations.gauges import bias_name
from tests.ledger.recipes import DRAW, planned


@pytest.mark.parametrize(
    ("gauge", "size_mm", "chance_mm"),
    [
        # By hand: its own error, its share of the size and 0.10 mm + 0.2 % of uneven face, squared and added.
        ("calliper", 10.0, 0.15620),  # √(0.10² + 0² + 0.12²)
        ("calliper", 200.0, 0.50990),  # √(0.10² + 0² + 0.50²)
        ("rule", 100.0, 0.43589),  # √(0.30² + 0.10² + 0.30²)
        ("by eye", 50.0, 1.81384),  # √(1.50² + 1.00² + 0.20²)
    ],
)
def test_a_longer_forged_face_is_more_uneven(gauge: str, size_mm: float, chance_mm: float) -> None:
    cold = cold_reading(Reading("strap", "width", size_mm, gauge))
    assert cold.chance_mm == pytest.approx(chance_mm, abs=1e-5)


def test_a_mark_on_the_bar_is_read_as_well_however_far_along_it_lies() -> None:
    # √(0.30² + (0.001 · 700)² + 0.10²): no hammer has been there; a rule's own share stays.
    cold = cold_reading(Reading("strap", "mark", 700.0, "rule"))
    assert cold.chance_mm == pytest.approx(0.76811, abs=1e-5)


def test_a_gauge_that_reads_high_once_is_expected_to_read_high_again() -> None:
    # A bar of 40 × 12 mm to 0.5 %: variances 0.04 and 0.0036 mm². The calliper's bias has 0.05² = 0.0025.
    stock = at_stock(planned(DRAW))
    high = taken_in(stock, Reading("strap", "width", 41.0, "calliper")).belief
    # The reading has 0.10² + 0.182² = 0.043124, all together 0.085624: each takes its share of the 1 mm.
    assert high.mean("strap.width") == pytest.approx(40.0 + 0.04 / 0.085624, abs=1e-6)
    assert high.mean(bias_name("calliper")) == pytest.approx(0.0025 / 0.085624, abs=1e-6)
    # 0.0292 mm too much is expected then of 12 mm: a reading of just 12 is a little short of it.
    both = taken_in(stock._replace(belief=high), Reading("strap", "thickness", 12.0, "calliper")).belief
    # 0.0036 + (0.0025 - 0.0025² / 0.085624) + 0.10² + 0.124² = 0.031403
    assert both.mean("strap.thickness") == pytest.approx(12.0 - 0.0036 / 0.031403 * 0.029197, abs=1e-6)
    # Another gauge says nothing of this one's bias.
    ruled = taken_in(stock._replace(belief=high), Reading("strap", "thickness", 12.0, "rule")).belief
    assert ruled.mean("strap.thickness") == pytest.approx(12.0, abs=1e-9)
