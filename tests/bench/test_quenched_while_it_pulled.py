"""What was quenched while a magnet still held is not hard for all that is known, until a file says so."""

from __future__ import annotations

from coach.ledger.verdict import PlanState
from tests.bench.test_hardness_from_the_quench import at_the_quench
from tests.told import why


def test_a_quench_whose_magnet_failed_is_tight_with_a_way_back_until_a_file_skates() -> None:
    # Steel that a magnet holds has not turned and does not harden (common practice, no source).
    session = at_the_quench()
    session.read("edge.magnet", "fail")
    assert session.standing().verdict is PlanState.ON_PLAN  # a shade brighter, in the same heat
    session.done()
    assert session.standing().verdict is PlanState.TIGHT
    assert "magnet" in why(session.standing())
    assert "do-again-harden-edge" in {way.name for way in session.ways_back()}


def test_a_file_that_skates_settles_what_the_magnet_said_before() -> None:
    session = at_the_quench()
    session.read("edge.magnet", "fail")
    session.read("edge.file_test", "pass")
    session.done()
    assert session.standing().verdict is PlanState.ON_PLAN
    assert not session.standing().to_right


def test_a_heat_read_since_over_where_all_steel_lets_go_settles_what_the_magnet_said_before() -> None:
    # Iron is non-magnetic over 770 °C (Curie point; common reference value, from memory).
    session = at_the_quench()
    session.read("edge.magnet", "fail")
    session.read("edge.temperature", "800")
    session.done()
    assert "magnet" not in why(session.standing())
    assert not session.standing().to_right


def test_a_heat_that_may_be_below_that_settles_nothing() -> None:
    session = at_the_quench()
    session.read("edge.magnet", "fail")
    session.read("edge.temperature", "772")
    session.done()
    assert any("magnet" in one.text for one in session.standing().to_right)
