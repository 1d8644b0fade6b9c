"""Tests of what solid a zone is, without its sizes."""

from __future__ import annotations

import pytest

from coach.operations import Shape


@pytest.mark.parametrize(
    ("dimension", "size_mm", "have_mm", "expected"),
    [
        ("side", 34.0, {"width": 45.0, "thickness": 35.0}, "width"),
        ("side", 34.0, {"width": 35.0, "thickness": 20.0}, "thickness"),
        ("diameter", 12.0, {"side": 15.0}, "side"),
        ("side", 14.0, {"side": 15.0, "length": 80.0}, "side"),
        ("thickness", 8.0, {"side": 15.0}, "side"),
        ("thickness", 8.0, {"width": 40.0, "thickness": 12.0}, "thickness"),
        ("length", 8.0, {"width": 40.0, "thickness": 12.0}, None),
    ],
)
def test_work_to_a_size_starts_from_the_size_there_is_most_to_do_on(
    dimension: str, size_mm: float, have_mm: dict[str, float], expected: str | None
) -> None:
    shape = Shape({"side": "square", "diameter": "round"}.get(dimension, "flat"))
    assert shape.worked_from(dimension, size_mm, have_mm) == expected
