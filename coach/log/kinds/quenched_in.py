"""A step quenched in another bath than the recipe's, or will: it counts so from that step on."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import one_of, step_number
from coach.metals.quenches import QUENCHES


class QuenchedIn(Body):
    """What a step is quenched in, also where that is told once it is done."""

    CALLED = "the bath of a quench"
    SAYS = ("step {}: quenched in {}", "step", "quench")
    IS_WEIGHED = True
    CHANGES_EARLIER = True
    OF_ANY_STEP = True

    step: int = step_number()
    quench: str = one_of(*QUENCHES)
