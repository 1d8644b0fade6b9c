"""Steel overheated at its quench or its temper is told for what it is, and what is done about it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why


def at(operation: str) -> Session:
    session = begun(CHISEL)
    while session.standing().step.operation != operation:  # type: ignore[union-attr]
        session.done()
    return session


# Coarse grain cracks in the quench: Precision Machined Products Association (confirmed); steel coarsened by a
# heat is refined by heating it from below its critical heat to just over it (confirmed second-hand).
@pytest.mark.parametrize("read", ["900", "1000"])
def test_steel_overheated_at_the_quench_is_not_to_be_quenched(read: str) -> None:
    session = at("harden")
    told = answer_text(session.read("edge.temperature", read), Shown())
    assert "grain grows coarse" in told
    assert "do not quench it" in told
    assert "still air till it is black, normalise it, and heat it again" in told
    assert "do not quench it" in why(session.standing())


def test_steel_too_cold_at_the_quench_is_heated_further() -> None:
    told = answer_text(at("harden").read("edge.temperature", "740"), Shown())
    assert "Too cold to harden: heat it further" in told
    assert "grain" not in told


def test_burnt_steel_is_cut_off_and_not_hardened_again() -> None:
    # C80 burns from some 1230 °C on: as 0.6 % carbon, 1180 °C by handbooks, and 50 °C (judgement).
    session = at("harden")
    session.read("edge.temperature", "1300")
    ways = {way.name: way for way in session.ways_back()}
    assert not any(name.startswith("do-again") for name in ways)
    assert "do not quench it" not in why(session.standing())
    cut = next(way for name, way in ways.items() if "burnt" in name)
    assert "Cut" in write(cut.title)
    assert "metal lost" in write(cut.changes)
    assert session.take(cut.name).entry


def test_a_temper_that_was_too_hot_tells_what_it_leaves() -> None:
    # 1095 hardened through has 54.5 HRC after 330 °C (published bands, confirmed second-hand).
    session = at("temper")
    told = answer_text(session.read("edge.temperature", "330"), Shown())
    assert "330 °C leaves C80 at " in told
    assert "HRC" in told.partition("leaves C80 at ")[2]
    assert "not 54 to 58 HRC" in told
    assert "harden it again and temper it" in told


def test_a_warp_has_its_way_back() -> None:
    session = begun(
        CHISEL.replace("{temperature: 780 to 810 °C}", "{temperature: 780 to 810 °C, warp: at most 1}")
    )
    session.done()
    session.read("edge.warp", "3")
    (way,) = (way for way in session.ways_back() if "warp" in way.name)
    assert "above 200 °C" in write(way.changes)
    assert "in the temper" in write(way.changes)
