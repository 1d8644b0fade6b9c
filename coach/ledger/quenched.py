"""How hard the best quench of a step leaves its steels."""

from __future__ import annotations

from typing import Final

from coach.ledger.hot_work import steels_of
from coach.ledger.plan import Plan
from coach.ledger.reading import QUESTIONED_BEYOND
from coach.ledger.shared_carbon import shared_carbon
from coach.ledger.tempered import quenched_in
from coach.metals.baths import never_hard_in_air
from coach.metals.grade_file import Grade
from coach.operations.measures import MEASURED
from coach.quantities import NOTHING, Figure, Kind, Words, say
from coach.recipe.model import Step

#: Up to so much carbon, in per cent, the hardness of a quench is told (from memory).
_MOST_CARBON_SHARE: Final = 1.2
#: No table of hardness goes further in HRC: ASTM E140, of which the rows at the end are from memory.
_SCALE_ENDS_HRC: Final = 68.0


def quenched_to_skate(plan: Plan, quench: Step) -> bool:
    """Whether a file skates over every steel of a quench that took; so where its carbon is not known."""
    from coach.metals.own_curve import FILE_HRC

    bands = [best_quenched_hrc(plan, quench, metal) for metal in steels_of(plan, quench)]
    return all(band is None or band[0] >= FILE_HRC for band in bands)


def best_quenched_hrc(plan: Plan, quench: Step, metal: Grade) -> tuple[float, float] | None:
    """Between which hardnesses a quench leaves a steel that it hardened; None where its carbon is not known.

    Of thin layers that have shared their carbon, by what they have together.
    """
    from coach.metals.hardening import LEAST_CARBON_SHARE
    from coach.metals.tempering import quenched_band_hrc

    carbon_share = _carbon_share(plan, quench, metal)
    if carbon_share is None or carbon_share < LEAST_CARBON_SHARE:
        return None
    return quenched_band_hrc(min(carbon_share, _MOST_CARBON_SHARE))


def is_never_hard(plan: Plan, step: Step) -> bool:
    """Whether what a step treats was last quenched in air, and has a steel that never hardens there."""
    return any(
        quenched_in(plan, step, metal) == "air" and never_hard_in_air(metal)
        for metal in steels_of(plan, step)
    )


def past_any_quench(plan: Plan, treated: Step, hrc: float) -> Words:
    """What speaks against a hardness over that of full martensite in the steels of a quench or a temper.

    Nothing where it may be, by what a tester is off, and where the carbon of one of them is not known.
    """
    bands = [best_quenched_hrc(plan, treated, metal) for metal in steels_of(plan, treated)]
    most_hrc = max((band[1] for band in bands if band is not None), default=0.0)
    if not bands or None in bands:
        return NOTHING
    off_hrc = QUESTIONED_BEYOND * (MEASURED[Kind.HARDNESS].doubt or 0.0)
    if hrc <= min(most_hrc + off_hrc, _SCALE_ENDS_HRC):
        return NOTHING
    return say("no quench leaves its steel harder than {}", Figure(most_hrc, Kind.HARDNESS))


def _carbon_share(plan: Plan, quench: Step, metal: Grade) -> float | None:
    shared = shared_carbon(plan, quench)
    if metal.carbon_share is None or shared is None:
        return metal.carbon_share
    return min(metal.carbon_share, shared.carbon_share)
