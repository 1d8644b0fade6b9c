"""A reading that is refused counts for nothing: what is wanted of its size stays where it was."""

from __future__ import annotations

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.places import bundled_recipes
from tests.bench.jobs import begun


def length_of(session: Session) -> Check:
    return next(one for one in session.standing().checks if one.name == "edge.length")


def test_a_refused_length_moves_no_aim() -> None:
    session = begun((bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8"))
    session.done()
    for dimension, read in (("end_thickness", "6.2"), ("end_width", "22"), ("width", "19.5")):
        session.read(f"edge.{dimension}", read, hot="900")
    before = length_of(session)
    session.read("edge.length", "24.6", hot="900")
    refused = length_of(session)
    assert refused.is_questioned
    assert (refused.wanted, refused.expected) == (before.wanted, before.expected)
