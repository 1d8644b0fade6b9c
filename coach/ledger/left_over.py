"""What a size with more to go is once its step is finished: out, or too near its limit to be sure of."""

from __future__ import annotations

from coach.ledger.course import Outcome
from coach.ledger.reading import cold_reading
from coach.ledger.verdict import Judged, Verdict
from coach.ledger.weighing import kind_of
from coach.operations.measures import MEASURED
from coach.quantities import COVERAGE
from coach.recipe.model import Step


def left_over(step: Step, outcome: Outcome) -> Judged | None:
    """What a reading is judged as where no more comes of its step.

    Beyond a limit that the work closes it had more to go, sure or not; now the doubt of its gauge counts
    on both sides of the limit alike.
    """
    judged = outcome.judged
    if judged is None or judged.verdict is not Verdict.MORE_TO_GO:
        return judged
    doubt = MEASURED[kind_of(step, outcome.mark.reading.dimension)].doubt
    if outcome.surprise is not None:
        doubt = outcome.surprise.cold.doubt_mm
    elif doubt is None:
        doubt = cold_reading(outcome.mark.reading).doubt_mm
    verdict = Verdict.OUT if judged.beyond_mm > COVERAGE * doubt else Verdict.UNSURE
    return judged._replace(verdict=verdict)
