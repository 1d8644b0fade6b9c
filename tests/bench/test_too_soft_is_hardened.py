"""Steel that is too soft is hardened again, whatever its temper was: no temper makes it harder."""

from __future__ import annotations

from tests.bench.test_contradicting_readings import at


def test_too_soft_after_too_cool_a_temper_is_not_tempered_but_hardened_again() -> None:
    session = at("temper")
    session.read("edge.temperature", "200 °C")
    session.read("edge.hardness", "50")
    again = [way.name for way in session.ways_back() if way.name.startswith("do-again")]
    assert again == ["do-again-harden-edge"]


def test_bent_after_too_hot_a_temper_it_is_not_tempered_but_hardened_again() -> None:
    session = at("temper")
    session.read("edge.temperature", "400 °C")
    session.read("edge.flex_test", "fail")
    again = [way.name for way in session.ways_back() if way.name.startswith("do-again")]
    assert again == ["do-again-harden-edge"]
