"""A length that was read while it was being drawn is told as no reading of the finished size."""

from __future__ import annotations

from coach.drafting.make import made_often
from coach.telling.why import reason_text
from tests.bench.jobs import begun

#: By hand: the point is 29.6 mm of square 12, 4262 mm³; as a frustum from 12 to 4 mm, 69.3 mm² in the mean,
#: it is drawn to about 60 mm. At 45 mm it is on its way there.
LATH_SPIKE = """
recipe: Lath spike
pieces:
  spike:
    metal: mild steel
    bar: square 12, long 900
    zones:
      point: square 12 ±0.8 to 4 ±1, long 60 ±6
      shank: square 12 ±0.6, long 50 ±4
      lug: 20 ±2 x 6 ±0.8, long 30 ±4, takes up wide then long
usual: {at: light yellow}
steps:
  - mark out: spike
  - taper: point, 2 heats
    check: end thickness, length
  - cut: lug, 1 heat
    check: length
  - spread: lug, flat, thick 6 ±0.8, long 30 ±4, 2 heats
    check: thickness, width, length
""".lstrip()


def test_a_length_read_on_its_way_is_never_told_as_the_one_it_is_expected_to_come_to() -> None:
    job = begun(made_often(LATH_SPIKE, 2))
    job.done()
    job.done()
    job.heat()
    job.read("spike 1 point.length", "45")
    job.change("spike 1 point.length = 52 ±6")
    told = reason_text(job.standing().reason)
    assert "was read as" not in told
    assert "spike 1 point length comes out at" in told.lower()
