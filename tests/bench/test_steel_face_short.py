"""The steel of a struck face that is cut too short: what it leaves bare of the face would be iron."""

from __future__ import annotations

from coach.bench.session import Session
from tests.bench.jobs import at_step_of


def short_face() -> Session:
    """The adze's poll is 34 mm square there; its steel, to be cut off 34 mm long, is cut off 28.5 long."""
    job = at_step_of("carpenters-adze", 4)
    job.heat()
    for name, mm in (("width", "34"), ("thickness", "9.5")):
        job.read(f"face.{name}", mm, insist=True)
    job.done()
    job.heat()
    job.read("face.length", "28.5", insist=True)
    return job


def test_no_way_is_to_leave_the_struck_face_partly_iron() -> None:
    ways = [one.name for one in short_face().ways_back()]
    assert ways[0] == "cut-another-face"
    assert not [name for name in ways if name.startswith("let-it-give-face")]
