"""What a job turns on is what lacks, and no size that is known as it stays, nor one read inside."""

from __future__ import annotations

import pytest

from coach.ledger.forecast import Forecast, forecast
from coach.ledger.tightest import as_told
from coach.ledger.verdict import PlanState, Reason, SizeState, Why
from coach.ledger.workpiece import Estimate, at_stock
from coach.ledger.zone_forecast import FinishedSize, Spare, ZoneForecast
from coach.quantities import Limits, Wanted, mm
from coach.recipe.model import ZoneDrawing
from tests.ledger.recipes import planned

_LIMITS = {"end_thickness": Limits(1.4, 1.0, 1.8, True), "width": Limits(30.0, 28.8, 31.2, True)}

#: Two zones of one bar, so that each has a drawing.
_TWO = """
title: Bar
pieces:
  bar: {metal: mild steel, stock: {form: flat, width: 40, thickness: 8}, zones: [edge, bit]}
drawing:
  edge: {form: flat, width: 40 ±2, thickness: 8 ±1, length: 40 ±3, take up: length}
  bit: {form: flat, width: 40 ±2, thickness: 8 ±1, length: 60 ±5, take up: length}
steps:
  - {do: mark out, piece: bar}
"""


def _size(zone: str, dimension: str, size_mm: float, *, measured: bool = False) -> FinishedSize:
    limits, figure = _LIMITS[dimension], mm(size_mm, 0.12)
    name, state = f"{zone}.{dimension}", SizeState.of(size_mm, limits)
    return FinishedSize(
        name, zone, dimension, Wanted(limits), figure, state, take_up=False, measured=measured
    )


def _zone(zone: str, size: FinishedSize, inside: float, enough: float, reason: Reason | None) -> ZoneForecast:
    spare = Spare(zone, "length", mm(1.0, 5.0), enough * inside)
    return ZoneForecast(
        zone,
        (size,),
        (spare,),
        enough * inside,
        enough,
        enough,
        Estimate(1.0, 0.1, {}),
        1.0,
        reason,
        reason,
        {size.dimension: inside},
        {size.dimension: size.dimension},
    )


def _found(edge: FinishedSize, reason: Reason, bit_enough: float) -> Forecast:
    zones = {
        "edge": _zone("edge", edge, 0.45, 0.999, reason),
        "bit": _zone("bit", _size("bit", "width", 30.0), 1.0, bit_enough, None),
    }
    return Forecast(zones, 0.3, PlanState.TIGHT, reason, {}, metal=bit_enough)


def _drawing() -> dict[str, ZoneDrawing]:
    return dict(planned(_TWO).recipe.drawing)


@pytest.mark.parametrize("why", [Why.NEAR, Why.UNDER, Why.OVER])
def test_a_size_known_as_it_stays_does_not_hide_what_really_lacks(why: Why) -> None:
    edge = _size("edge", "end_thickness", 1.4, measured=True)
    found = _found(edge, edge.reason(why), 0.63)
    told = found.besides({("edge", "end_thickness"): SizeState.GOOD}, _drawing())
    assert isinstance(told.reason, Reason)
    assert (told.reason.zone, told.reason.dimension, told.reason.why) == ("bit", "length", Why.SHORT)
    assert told.chance == pytest.approx(0.63)
    assert told.state is PlanState.OFF_PLAN  # as its metal makes it, whatever size was accepted beside it


@pytest.mark.parametrize("why", [Why.NEAR, Why.SHORT])
def test_on_plan_nothing_is_said_to_lack(why: Why) -> None:
    edge = _size("edge", "end_thickness", 1.4, measured=True)
    found = _found(edge, edge.reason(why), 0.98)
    told = found.besides({("edge", "end_thickness"): SizeState.GOOD}, _drawing())
    assert told.state is PlanState.ON_PLAN
    assert isinstance(told.reason, Reason)
    assert told.reason.why is Why.TIGHTEST


def test_a_size_that_was_read_inside_is_never_told_as_outside() -> None:
    row = _size("foot", "width", 29.5, measured=True)
    told = as_told(Reason(Why.UNDER, "foot", "width", mm(-2.1, 0.5), mm(28.8)), [], [row], {})
    assert isinstance(told, Reason)
    assert told.why is Why.NEAR
    assert told.size.value == pytest.approx(29.5)


def test_nothing_known_leaves_the_forecast_as_it_is() -> None:
    plan = planned(_TWO)
    found = forecast(plan, None, at_stock(plan), 1)
    assert found.besides({}, plan.recipe.drawing) == found
