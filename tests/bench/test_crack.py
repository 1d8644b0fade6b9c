"""A crack: it is ground out where it is shallow, or cut off, before the piece is given up."""

from __future__ import annotations

from coach.telling.words import write
from tests.bench.test_wrong_bath import O1, quenched


def test_a_crack_is_ground_out_or_cut_off_before_the_piece_is_given_up() -> None:
    # A crack that goes no deeper than the metal to spare is ground out; a deeper one is cut off (common
    # practice, no source).
    session = quenched(O1.replace("quench: water", "quench: oil"))
    session.read("edge.crack_test", "fail")
    first, *others = session.ways_back()
    assert "Grind out the crack" in write(first.title)
    assert "cut" in write(first.changes)
    assert any(way.again for way in others)
