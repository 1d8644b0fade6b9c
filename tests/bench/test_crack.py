"""A crack: it is ground out where it is shallow, or cut off, before the piece is given up."""

from __future__ import annotations

import pytest

from coach.telling.words import write
from tests.bench.jobs import at_step_of
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.bench.test_wrong_bath import O1, quenched
from tests.told import why


def test_a_crack_is_ground_out_or_cut_off_before_the_piece_is_given_up() -> None:
    # A crack that goes no deeper than the metal to spare is ground out; a deeper one is cut off (common
    # practice, no source).
    session = quenched(O1.replace("quench: water", "quench: oil"))
    session.read("edge.crack_test", "fail")
    first, *others = session.ways_back()
    assert "Grind out the crack" in write(first.title)
    assert "cut" in write(first.changes)
    assert any(way.again for way in others)


@pytest.mark.parametrize(("number", "hard"), [(12, False), (13, True)])
def test_only_what_was_hardened_is_hardened_anew(number: int, *, hard: bool) -> None:
    session = at_step_of("drawknife", number)
    session.read("blade.crack_test", "fail")
    first, *_ = session.ways_back()
    assert "Grind out the crack" in write(first.title)
    assert ("harden what is left anew" in write(first.changes)) is hard


def test_a_dull_note_of_one_piece_sends_to_the_crack_test() -> None:
    # A sound piece that hangs free rings; a crack or an open joint is dull (common practice, no source).
    session = at_step_of("drawknife", 12)
    session.read("blade.ring_test", "fail")
    first, *_ = session.ways_back()
    assert "Look for the crack" in write(first.title)
    assert "make the crack test" in write(first.changes)
    welded = at_step_of("cross-peen-hammer", 28)
    welded.read("poll.ring_test", "fail")
    assert not any("Look for the crack" in write(one.title) for one in welded.ways_back())


def test_a_crack_is_told_before_what_was_wrong_earlier() -> None:
    # What is cracked is not hardened, tempered or struck till the crack is out (common practice, no source).
    session = quenched(CHISEL)
    session.read("edge.hardness", "44", insist=True)
    session.read("edge.crack_test", "fail")
    standing = session.standing()
    first, *others = standing.to_right
    assert first.text == "crack test failed"
    assert [one.text for one in others] == ["hardness too low"]
    assert "crack test failed" in why(standing)
    assert "hardness" not in why(standing)
