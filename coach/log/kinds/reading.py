"""A size was read."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import LONGEST_NAME, flag, line, moment, number, numbers, one_of, step_number
from coach.log.status import JobStatus
from coach.metals.thermal import COLD_SHOP_C, HIGHEST_AUSTENITE_C
from coach.operations.gauges import LEAST_DOUBT_MM, MOST_DOUBT_MM, READ_BY
from coach.operations.measures import MARK

#: In the base unit of its kind: mm, g, °C, s…
LARGEST_SIZE = 10_000_000.0
#: No temperature that is read is more doubtful than this, °C.
LARGEST_DOUBT_C = 1000.0


class Reading(Body):
    """One size as it was measured."""

    CALLED = "a reading"
    SAYS = ("{} {} {}", "zone", "dimension", "typed")
    IS_WEIGHED = True
    IS_WORK = True
    OF_ANY_STEP = True
    AFTER = JobStatus.UNDER_WAY
    CAN_BE_PUT_RIGHT = True  # a test that did not pass

    zone: str = line(LONGEST_NAME)  # or the piece that was weighed
    dimension: str = line(LONGEST_NAME)
    typed: str = line(LONGEST_NAME)
    size: float = number(0.0, LARGEST_SIZE)
    gauge: str = one_of(*READ_BY)
    hot_c: float | None = number(
        COLD_SHOP_C, HIGHEST_AUSTENITE_C, or_none=True
    )  # of the metal, when it was read hot
    hot_doubt_c: float = number(0.0, LARGEST_DOUBT_C)  # of that, or of the temperature that was read
    insisted: bool = flag()
    step: int = step_number()
    taken_at: str = moment()  # when it was taken, if it was entered later; else ""
    doubts: tuple[float, float, float] | None = numbers(
        ("cold_mm", "hot_mm", "bias_mm"), LEAST_DOUBT_MM, MOST_DOUBT_MM, default=None
    )  # of its gauge as it was set then, where that was not as usual

    @property
    def changes_earlier(self) -> bool:
        """See Body."""
        # A mark that is read once more takes the way back that made it anew to the mark-out.
        return bool(self.taken_at) or self.dimension == MARK
