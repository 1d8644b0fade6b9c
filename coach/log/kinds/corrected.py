"""A reading was really another one."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.kinds.reading import LARGEST_DOUBT_C, LARGEST_SIZE, Reading
from coach.log.limits import LONGEST_NAME, earlier, flag, line, number
from coach.operations.gauges import BY_COLOUR, PYROMETER


class Corrected(Body):
    """What a reading really was: it counts so from where it was taken."""

    CALLED = "a correction"
    SAYS = ("entry {} corrected to {}", "entry", "typed")
    IS_WEIGHED = True
    CHANGES_EARLIER = True

    entry: int = earlier("a reading", lambda kind: kind is Reading)
    typed: str = line(LONGEST_NAME)
    size: float = number(0.0, LARGEST_SIZE)
    hot_doubt_c: float = number(0.0, LARGEST_DOUBT_C)
    insisted: bool = flag()

    def applied_to(self, reading: Reading) -> Reading:
        """The reading as it counts now: a heat by its colour where that is named, else by pyrometer."""
        gauge = reading.gauge
        if gauge in (PYROMETER, BY_COLOUR):
            gauge = PYROMETER if self.typed[:1].isdigit() else BY_COLOUR
        return reading.replaced(
            typed=self.typed,
            size=self.size,
            gauge=gauge,
            hot_doubt_c=self.hot_doubt_c,
            insisted=self.insisted,
        )
