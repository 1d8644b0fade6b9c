"""How many blows, and so how many heats, a forging takes.

Before a smith's own blows have been counted this is good to half of itself, no better.
"""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from coach.fire.spreading import squeeze
from coach.metals.grade_file import Grade
from coach.quantities.between import between
from coach.quantities.checks import check_temperature
from coach.quantities.figure import Figure, Kind
from coach.quantities.refusal import OutOfRange

#: Judgement: a reckoned count of blows or heats may be wrong by this share of itself, until they are counted.
COUNT_DOUBT_SHARE: Final = 0.5

#: Judgement: rubbing against hammer and anvil makes the work this many times that of a free squeeze; 1.0 to
#: 1.3 in flat work.
FRICTION: Final = 1.0

#: Restitution of a blow on hot steel, between 0.2 and 0.5 in textbooks (from memory).
RESTITUTION: Final = 0.3

#: Judgement: how fast a bar is squeezed by one blow, in 1/s; hammers of every kind are of this order.
BLOW_RATE_PER_S: Final = 100.0

#: A squeeze of one blow or two, between which the metal softens: ln 1.3 (from memory).
GREATEST_STRAIN: Final = math.log(1.3)

#: Judgement: iron of less carbon than this, wrought iron among it, counts as steel of this much, in %.
LEAST_CARBON_SHARE: Final = 0.05

#: Judgement: an anvil is this many times as heavy as the ram of its power hammer (15:1, a usual proportion).
ANVIL_TO_RAM: Final = 15.0

#: Judgement: speed of a power hammer's ram as it strikes, in m/s; 3 to 6.
RAM_SPEED_M_S: Final = 5.0

#: Judgement: blows a minute of power hammers by the mass of the ram in kg, read between.
_RAM_BLOWS_PER_MINUTE: Final = ((10.0, 280.0), (25.0, 240.0), (50.0, 200.0), (100.0, 170.0), (250.0, 130.0))

#: Between which values the law of flow stress is published, the carbon in per cent by mass (from memory).
MOST_CARBON_SHARE: Final = 1.2
COLDEST_C: Final = 750.0
HOTTEST_C: Final = 1200.0
MOST_STRAIN: Final = 0.5
SLOWEST_PER_S: Final = 30.0
FASTEST_PER_S: Final = 200.0

#: Standard gravity: 1 kgf/mm² in MPa (by definition).
_MPA_IN_KGF_MM2: Final = 9.80665
#: How near is the same (our choice).
_ROUNDING: Final = 1e-9


class Striker(NamedTuple):
    """One way to strike."""

    name: str
    mass_kg: float
    speed_m_s: float
    anvil_kg: float
    blows_per_minute: float
    striking_share: float  # of the time at a working heat, the rest goes in turning, looking and moving


class Stiffness(NamedTuple):
    """How hard a grade resists at a heat."""

    mean_stress_mpa: float
    remark: str  # one sentence where something was assumed, else nothing


class BlowsAndHeats(NamedTuple):
    """How many blows and heats; COUNT_DOUBT_SHARE says how well that is known."""

    blows: int
    heats: int


#: Masses, speeds, rates and shares: judgement; speeds of hand hammers lie between 6 and 10 m/s.
HAND_HAMMER: Final = Striker("hand hammer", 1.5, 8.0, 100.0, 70.0, 0.6)
SLEDGE: Final = Striker("striker with a sledge", 4.5, 8.0, 150.0, 40.0, 0.5)


def power_hammer(ram_kg: float) -> Striker:
    """A power hammer by the mass of its ram in kg: 5 m/s on an anvil of 15 times its mass (judgement).

    Rams from 10 to 250 kg; raises OutOfRange for others.

    >>> power_hammer(25).name
    'power hammer, 25 kg ram'
    """
    rates = _RAM_BLOWS_PER_MINUTE
    if not rates[0][0] <= ram_kg <= rates[-1][0]:
        raise OutOfRange(
            f"A power hammer's ram weighs {rates[0][0]:.0f} to {rates[-1][0]:.0f} kg here, not "
            f"{ram_kg:g} kg; give the mass of the ram in kg."
        )
    blows_per_minute = between(rates, ram_kg)
    name = f"power hammer, {ram_kg:g} kg ram"
    return Striker(name, ram_kg, RAM_SPEED_M_S, ANVIL_TO_RAM * ram_kg, blows_per_minute, 0.5)


def blow_j(striker: Striker) -> float:
    """The work in J that one blow leaves in the piece: ½ m v² (1 - e²) M / (M + m).

    m the hammer and M the anvil in kg, v in m/s, e RESTITUTION; for a blow through the middle of both.
    Raises OutOfRange for a striker whose masses or speed are not above 0.
    Source: central impact, any textbook of mechanics (from memory).

    >>> round(blow_j(HAND_HAMMER), 2)
    43.03
    """
    for size, what in (
        (striker.mass_kg, "mass of the hammer"),
        (striker.speed_m_s, "speed of the blow"),
        (striker.anvil_kg, "mass of the anvil"),
    ):
        _positive(size, what)
    share = (1.0 - RESTITUTION**2) * striker.anvil_kg / (striker.anvil_kg + striker.mass_kg)
    return 0.5 * striker.mass_kg * striker.speed_m_s**2 * share


def misaka_mean_stress_mpa(
    carbon_share: float, temperature_c: float, strain: float, rate_per_s: float
) -> float:
    """The flow stress in MPa, as a mean over the squeeze from nothing to `strain`.

    exp(0.126 - 1.75 C + 0.594 C² + (2851 + 2968 C - 1120 C²) / T) ε^0.21 ε̇^0.13 in kgf/mm², with T in K,
    times 9.80665. It is a mean: do not average it again. For plain carbon steel: wrought iron, with its
    threads of slag, is not covered by it. ε is ln(h0/h1), ε̇ its rate in 1/s.
    Published for carbon up to 1.2 %, 750 to 1200 °C, ε up to 0.5 and ε̇ from 30 to 200 /s (range from
    memory); raises OutOfRange elsewhere.
    Source: Y. Misaka and T. Yoshimoto, Journal of the Japan Society for Technology of Plasticity 8 (1967)
    (confirmed second-hand, two public code listings).

    >>> round(misaka_mean_stress_mpa(0.2, 1100, 0.22314, 100), 2)
    126.78
    """
    published = "The flow stress of hot steel is published"
    # Written so that what is not a number is refused too.
    if not 0.0 <= carbon_share <= MOST_CARBON_SHARE:
        raise OutOfRange(
            f"{published} for 0 to {MOST_CARBON_SHARE:g} % of carbon, not for {carbon_share:g} %; "
            "count the blows of a first heat instead."
        )
    sentence = f"{published} from {{}}, not at {{}}; give a forging heat between them."
    check_temperature(temperature_c, COLDEST_C, HOTTEST_C, sentence)
    if not 0.0 < strain <= MOST_STRAIN:
        raise OutOfRange(
            f"{published} for squeezes that bring a height down by up to {math.exp(MOST_STRAIN):.2f} "
            f"times, a strain of {MOST_STRAIN:g}, not for a strain of {strain:g}; take smaller squeezes."
        )
    if not SLOWEST_PER_S <= rate_per_s <= FASTEST_PER_S:
        raise OutOfRange(
            f"{published} for rates of {SLOWEST_PER_S:g} to {FASTEST_PER_S:g} per second, not for "
            f"{rate_per_s:g}; give the rate of one blow."
        )
    c = carbon_share
    hot = (2851.0 + 2968.0 * c - 1120.0 * c**2) / (temperature_c + 273.15)
    kgf_mm2 = math.exp(0.126 - 1.75 * c + 0.594 * c**2 + hot) * strain**0.21 * rate_per_s**0.13
    return float(kgf_mm2 * _MPA_IN_KGF_MM2)


def stiffness(grade: Grade, temperature_c: float, strain: float = GREATEST_STRAIN) -> Stiffness:
    """The mean flow stress of a grade under a hammer, by Misaka and Yoshimoto's law at BLOW_RATE_PER_S.

    From 750 °C; what is hotter than 1200 °C, the end of the law, counts as 1200 °C, and so takes somewhat
    more blows than it should. Only the carbon counts: an alloyed steel is stiffer than is said here. Wrought
    iron is covered by no law and counts as steel of 0.05 % carbon (judgement), which the remark says.
    Raises OutOfRange where the carbon is unknown, and outside the law.
    Source: `misaka_mean_stress_mpa`.
    """
    carbon_share = grade.carbon_share
    if carbon_share is None:
        raise OutOfRange(
            f"The carbon of {grade.name} is not known, so neither its stiffness nor its blows can be "
            "reckoned; count the blows of a first heat instead."
        )
    remark = ""
    if carbon_share < LEAST_CARBON_SHARE:
        remark = (
            f"No law covers {grade.name}, so its blows are reckoned as those of steel with "
            f"{LEAST_CARBON_SHARE:g} % carbon."
        )
    counted = max(carbon_share, LEAST_CARBON_SHARE)
    # A temperature that is not a number stays one here, and is refused by the law.
    counted_c = HOTTEST_C if HOTTEST_C < temperature_c < math.inf else temperature_c
    return Stiffness(misaka_mean_stress_mpa(counted, counted_c, strain, BLOW_RATE_PER_S), remark)


def forging_work_j(
    grade: Grade,
    temperature_c: float,
    volume_mm3: float,
    height_mm: float,
    new_height_mm: float,
) -> float:
    """The work in J of squeezing a volume of a grade at a heat from one height to another: σ V ln(h0/h1) Q.

    σ the mean flow stress in MPa, V in mm³, heights in mm, Q FRICTION. A large squeeze is made in several,
    each of GREATEST_STRAIN but for the last, and the metal softens between them (judgement). Raises
    OutOfRange for what is not above 0, for a new height above the old, and as `stiffness` does.
    Source: the ideal work of forming (from memory).
    """
    _positive(volume_mm3, "volume")
    whole, last = divmod(math.log(squeeze(height_mm, new_height_mm)), GREATEST_STRAIN)
    stress_by_strain = whole * GREATEST_STRAIN * stiffness(grade, temperature_c).mean_stress_mpa
    if last > 0.0:
        stress_by_strain += last * stiffness(grade, temperature_c, last).mean_stress_mpa
    return stress_by_strain * volume_mm3 * FRICTION / 1000.0


def blows_for(work_j: float, striker: Striker) -> int:
    """How many whole blows bring this much work into the piece; COUNT_DOUBT_SHARE says how well.

    Raises OutOfRange for a work below 0 J, and as `blow_j` does.

    >>> blows_for(530.4, HAND_HAMMER), blows_for(530.4, SLEDGE)
    (13, 5)
    """
    if not 0.0 <= work_j < math.inf:
        raise OutOfRange("The work of a forging is 0 or more, not {}.", Figure(work_j, Kind.ENERGY))
    return _whole(work_j / blow_j(striker))


def heats_for(blows: int, seconds_per_heat: float, striker: Striker) -> int:
    """How many heats some blows take, when a heat gives this many seconds at a working heat.

    Blows a heat are the seconds times the striker's blows a minute times the share of the time in which he
    strikes (judgement). Raises OutOfRange where not one blow fits into a heat.

    >>> heats_for(100, 60, HAND_HAMMER)
    3
    """
    if blows < 0:
        raise OutOfRange(f"The blows of a forging are 0 or more, not {blows}.")
    _positive(seconds_per_heat, "time of a heat")
    _positive(striker.blows_per_minute, "rate of the blows")
    if not 0.0 < striker.striking_share <= 1.0:
        raise OutOfRange(
            f"The share of a heat spent striking is above 0 and at most 1, not {striker.striking_share:g}."
        )
    in_a_heat = seconds_per_heat / 60.0 * striker.blows_per_minute * striker.striking_share
    if in_a_heat < 1.0:
        raise OutOfRange(
            f"In {seconds_per_heat:.2g} seconds at a working heat there is no time for a blow with the "
            f"{striker.name}; work a thicker section or a smaller part."
        )
    return _whole(blows / in_a_heat)


def reckon(work_j: float, striker: Striker, seconds_per_heat: float) -> BlowsAndHeats:
    """Blows and heats for a work in J; raises OutOfRange as `blows_for` and `heats_for` do.

    >>> reckon(5304, HAND_HAMMER, 60)
    BlowsAndHeats(blows=124, heats=3)
    """
    blows = blows_for(work_j, striker)
    return BlowsAndHeats(blows, heats_for(blows, seconds_per_heat, striker))


def _whole(count: float) -> int:
    # A count that is whole but for rounding must not take one more.
    return math.ceil(count * (1.0 - _ROUNDING))


def _positive(size: float, what: str) -> None:
    # Written so that what is not a number is refused too.
    if not 0.0 < size < math.inf:
        raise OutOfRange(f"The {what} must be above 0, not {size:g}.")
