"""What a step asks of something that is no part of the metal account: its heat, its soak, its hardness."""

from __future__ import annotations

from coach.ledger.plan import Plan
from coach.ledger.wanting import centre_wanted
from coach.operations import Does, operation
from coach.operations.measures import CENTRE, MEASURED, OTHER_TINE, TINE, with_margin
from coach.quantities import Kind, Limits
from coach.recipe.model import Step

_HARDNESS, _SOAK, _TEMPERATURE = "hardness", "soak", "temperature"


def wanted_apart(plan: Plan, step: Step, zone: str, dimension: str) -> Limits | None:
    """What a step asks of something that is no part of the metal account; None where it asks nothing.

    Hardening and tempering are done at the step's own heat, with the margin of a bare temperature, and where
    it says none at those of its steels;
    normalising within what its steel's grain is made fine by. A quench that took leaves what its carbon does,
    and what a temper is to leave stays so.
    """
    if dimension == CENTRE and step.does(Does.MARKS_OUT):
        return centre_wanted(plan, zone)
    if dimension == OTHER_TINE and dimension not in step.targets and step.does(Does.PARTS):
        return step.targets.get(TINE)  # where they are alike; of an uneven fork it is a size of its own
    if dimension == _HARDNESS and dimension not in step.targets and step.does(Does.QUENCHES):
        from coach.ledger.tempered import least_quenched

        return least_quenched(plan, step)
    if dimension == _SOAK and step.does(Does.QUENCHES) and dimension in step.targets:
        return _held(plan, step, step.targets[dimension])
    treats = step.does(Does.QUENCHES) or step.does(Does.TEMPERS) or step.does(Does.NORMALISES)
    if dimension in step.targets or not treats:
        return step.targets.get(dimension) or (
            _left_before(plan, step, zone) if dimension == _HARDNESS else None
        )
    own_c = step.temperature_c if step.temperature_c is not None else _of_its_colour(step)
    if own_c is None:
        return _unsaid(plan, step, dimension)
    if operation(step.operation).kind_of(dimension) is not Kind.TEMPERATURE:
        return None
    own = with_margin(Limits(own_c, own_c, own_c, stated=False), MEASURED[Kind.TEMPERATURE].margin)
    return _normalised(plan, step, own) if step.does(Does.NORMALISES) else own


def _of_its_colour(step: Step) -> float | None:
    """The heat of the colour that a temper is run to, °C; None where it says none."""
    if not step.colour or not step.does(Does.TEMPERS):
        return None
    from coach.ledger.tempered import temper_heat_c

    return temper_heat_c(step)


def _left_before(plan: Plan, step: Step, zone: str) -> Limits | None:
    """What the temper before it is to leave: how hard a tool is, is measured at any time after that."""
    from coach.ledger.own_curves import treatment_before

    treated = treatment_before(plan, step, zone)
    if treated is None or not treated.does(Does.TEMPERS):
        return None
    return treated.targets.get(_HARDNESS)


def _unsaid(plan: Plan, step: Step, dimension: str) -> Limits | None:
    """What a treatment of no said heat is held to, by its steels' own."""
    from coach.ledger.unsaid_heat import left_unsaid, unsaid_heat

    if dimension == _HARDNESS:
        return left_unsaid(plan, step)
    return unsaid_heat(plan, step) if dimension == _TEMPERATURE else None


def _held(plan: Plan, step: Step, soak: Limits) -> Limits:
    """A bare soak of a quench is the least time: it is held up to what its steel is held, by its grade."""
    from coach.ledger.hot_work import steels_of
    from coach.metals.hardening import soaked_s

    if soak.stated:
        return soak
    high_s = max([soak.high, *(soaked_s(metal)[1] for metal in steels_of(plan, step))])
    return Limits(soak.nominal, soak.low, high_s, soak.stated)


def _normalised(plan: Plan, step: Step, own: Limits) -> Limits:
    """The heats that make the grain fine, about a step's own: each may be lower than the one before.

    Up to the highest that the steel is normalised at, down to so much above where it is all turned as steel
    is hardened from at the least (both by its grade).
    """
    from coach.ledger.hot_work import steels_of
    from coach.metals.hardening import ABOVE_CRITICAL_C
    from coach.metals.transformation import is_beyond_alloys, upper_critical

    low, high = own.low, own.high
    for metal in steels_of(plan, step):
        if metal.normalising_high_c is not None:
            high = max(high, metal.normalising_high_c + high - own.nominal)
        if metal.composition and not is_beyond_alloys(metal.nominal):
            low = min(low, upper_critical(metal.nominal).celsius + ABOVE_CRITICAL_C[0])
    return Limits(own.nominal, low, high, stated=False)
