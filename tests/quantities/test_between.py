"""What a table says between two of its rows."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.quantities.between import between

ROWS = [(0.1, 1315.0), (0.4, 1260.0), (0.6, 1205.0), (0.95, 1120.0)]


@given(st.floats(0.1, 0.95))
def test_a_table_is_read_straight_between_its_rows(at: float) -> None:
    ats, figures = [row[0] for row in ROWS], [row[1] for row in ROWS]
    told = float(np.interp(at, ats, figures))  # numpy's own reading of the same table
    assert between(ROWS, at) == pytest.approx(told)


@pytest.mark.parametrize(("at", "told"), ROWS)
def test_a_row_is_told_as_it_stands(at: float, told: float) -> None:
    assert between(ROWS, at) == pytest.approx(told)
