"""How a grade is hardened: from what heat, in what, and what comes before and after.

Words are for a smith at the fire, with their temperatures as figures.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple

from coach.metals.grade_file import Grade
from coach.metals.transformation import (
    EUTECTOID_CARBON_SHARE,
    CriticalPoint,
    is_beyond_alloys,
    lower_critical,
    martensite_points,
    retained_austenite_share,
    upper_critical,
)
from coach.quantities.figure import Figure, Kind, celsius, share
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, as_words, run_on, say

#: Where iron stops being magnetic, in °C: its Curie point (from memory).
CURIE_C: Final = 770.0

#: How far above the critical temperature steel is hardened, in °C; common practice.
ABOVE_CRITICAL_C: Final = (30.0, 60.0)

#: Below so much carbon, per cent by mass, a quench gives nothing useful; common practice.
LEAST_CARBON_SHARE: Final = 0.30

#: With so much chromium, tungsten, molybdenum and vanadium together, per cent by mass, the carbides of a
#: steel of 0.77 % carbon or more dissolve so slowly that it is soaked like O1; judgement.
SLOW_CARBIDES_SHARE: Final = 0.8

#: Such a steel is held at its hardening heat for so long, in seconds; two merchants' sheets of O1, undated,
#: say 20 and 30 min for an inch, one of them 20 at the least (confirmed second-hand), 10 to 30 min is told of
#: thin work (from memory).
SLOW_SOAK_S: Final = (600.0, 1800.0)

#: Any other for so long once it is even, in seconds (common practice, no source).
SOAK_S: Final = (300.0, 600.0)

#: Grain grows with the heat far more than with the minutes, so that half as long again at the right heat
#: costs the skin alone (judgement).
_HARMLESS_TIMES: Final = 1.5

#: A forging is normalised so often, each time from a little less (common practice, no source).
NORMALISING_HEATS: Final = 3
#: How often, in words (our choice).
_TIMES: Final = {1: "once", 2: "twice", 3: "three times"}

#: How warm quenched steel goes to its temper, in °C: cold enough to be hard, too warm to have cracked (common
#: practice); more than the hand holds.
COOLED_C: Final = (50.0, 65.0)

#: The bath of oil, in °C (common practice, no source); a guide for machinists, undated, has 32 to 54 °C
#: (confirmed second-hand). Warmer it comes nearer to its flash point, colder it quenches slower and flares.
_OIL_C: Final = (50.0, 65.0)
#: The bath of water or brine, in °C: handbooks keep it under 25 to 30 (from memory). Warmer, steam clings
#: to the steel and leaves it soft; colder, it cracks more.
_WATER_C: Final = (20.0, 30.0)


class CannotHarden(Refusal):
    """A grade that a quench does not harden, or whose heat nobody knows; its text is one plain sentence."""


class Hardening(NamedTuple):
    """From what heat a grade is hardened, in what, and what comes before and after."""

    low: Figure  # the lowest hardening heat
    high: Figure  # the highest
    source: str  # where they are from and how far that is confirmed
    quench: str  # the medium, empty when it is not known
    steps: tuple[tuple[str, Words], ...]  # what is done, and how, in order
    retained: Figure | None  # the austenite left after a quench to 20 °C; None when it is not known
    reckoned: bool = False  # whether its heats are no published ones, so that coupons come first

    def told(self, step: str) -> Words:
        """How one of its steps is done."""
        return dict(self.steps)[step]


def hardening_advice(
    grade: Grade, aimed_c: tuple[float, float] | None = None, *, by_iron: bool = True
) -> Hardening:
    """How a grade is hardened; the magnet's words go on to the heats that are aimed at, where some are.

    `by_iron` says whether it may be steel on an iron body, which pulls a magnet longer.

    The heats are those of the grade's file; where that gives none but a composition, 30 to 60 °C above the
    upper critical temperature, which for most steels here is 15 to 50 °C colder than published practice: a
    place to begin with coupons. Raises CannotHarden below 0.3 % carbon and where there is neither.
    Sources: the grade's file, `coach.metals.transformation`, common practice for the rest.

    >>> from coach.metals.grade import grade
    >>> advice = hardening_advice(grade("1084"))
    >>> advice.low.value, advice.high.value, advice.quench
    (800.0, 830.0, 'fast oil')
    """
    low_c, high_c, source = _heats(grade)
    on_to = aimed_c or (low_c, high_c)
    composition, retained = grade.nominal, None
    if composition:
        retained = _retained(martensite_points(composition)[0])
    medium, minded = grade.quench[:2] if grade.quench is not None else ("", "")
    steps = (
        ("normalise", normalise_words(grade)),
        ("magnet", run_on((_magnet(composition, *on_to, by_iron=by_iron), _not_all_turned(grade, *on_to)))),
        ("soak", as_words(_soak(grade))),
        ("quench", run_on((quench_words(grade), minded))),
        ("temper", _temper_words(grade)),
    )
    reckoned = grade.hardening_low_c is None or grade.hardening_high_c is None
    return Hardening(celsius(low_c), celsius(high_c), source, medium, steps, retained, reckoned)


def _retained(starts: CriticalPoint) -> Figure:
    """The austenite that is left, as doubtful as where the martensite starts."""
    doubt_c = (starts.temperature.doubt or 0.0) if starts.temperature is not None else 0.0
    most, least = (retained_austenite_share(starts.celsius + off_c) for off_c in (-doubt_c, doubt_c))
    return share(retained_austenite_share(starts.celsius), 0.5 * (most - least))


#: How the heat and the quench of an unknown steel are found, step by step; common practice.
COUPON_TEST: Final = (
    "Cut four or more coupons from the same bar, thin as the edge is to be, and number them.",
    "Heat the first until a magnet lets go, then a shade brighter, and quench it in warm oil.",
    "Try it with an old file: it has hardened if the file skates, and not if the file bites.",
    "Break it in the vice, under a cloth, eyes covered: fine and grey is right, coarse was too hot.",
    "If coarse, heat the next a shade less; if soft, a shade more; until one is hard and fine.",
    "Only if none hardens in oil, try water from the lowest heat; stand aside, and look for cracks.",
    "Harden one more like the best, temper it and flex it: it must spring back, not break or stay bent.",
)


def _heats(grade: Grade) -> tuple[float, float, str]:
    low_c, high_c = grade.hardening_low_c, grade.hardening_high_c
    if low_c is not None and high_c is not None:
        sources = dict.fromkeys(map(grade.said_of, ("hardening_low_c", "hardening_high_c")))
        return low_c, high_c, "; ".join(sources)
    carbon_share = grade.carbon_share
    if carbon_share is not None and carbon_share < LEAST_CARBON_SHARE:
        raise CannotHarden(
            f"{grade.name} has {carbon_share:g} % carbon, and below about {LEAST_CARBON_SHARE:g} % a quench "
            "gives nothing useful; an edge or a face needs a harder steel welded on."
        )
    if not grade.composition:
        raise CannotHarden(
            f"At what heat {grade.name} hardens nobody can tell without knowing what is in it; find it by "
            "the coupon test, quenching and breaking pieces of the same bar."
        )
    if is_beyond_alloys(grade.nominal):
        raise CannotHarden(
            f"{grade.name} has more alloy than the published equations hold for, and no hardening heat of "
            "its own is told; take its maker's, or find it by the coupon test."
        )
    critical_c = upper_critical(grade.nominal).celsius
    least, most = ABOVE_CRITICAL_C
    source = f"reckoned from composition, Andrews 1965 + {least:.0f} to {most:.0f} °C (common practice)"
    return critical_c + least, critical_c + most, source


def _magnet(composition: Mapping[str, float], low_c: float, high_c: float, *, by_iron: bool) -> Words:
    heats = "harden from {} to {}" if low_c <= CURIE_C else "that is not yet hot enough, so go on to {} to {}"
    after = say(heats, celsius(low_c), celsius(high_c))
    curie = celsius(CURIE_C)
    tested = after
    if by_iron:
        tested = say("{}; test the edge, for an iron body holds the magnet up to {}", after, curie)
    if not composition:
        return say("Steel lets go of the magnet at {} at the latest: {}.", curie, tested)
    turns_c = lower_critical(composition).celsius
    if turns_c >= CURIE_C:
        return say("This steel lets go of the magnet at {}, before it turns: {}.", curie, tested)
    turned_c = upper_critical(composition).celsius
    if composition["C"] < EUTECTOID_CARBON_SHARE and turned_c >= CURIE_C:
        carbon = Figure(composition["C"], Kind.CONTENT)
        held = "With {} of carbon it keeps ferrite to {}, which holds the magnet up to {}: {}."
        return say(held, carbon, celsius(turned_c), curie, after)
    between = "Steel lets go of the magnet between about {} and {}: {}."
    return say(between, celsius(turns_c), curie, tested)


def _not_all_turned(grade: Grade, low_c: float, high_c: float) -> Words:
    """A word where the lowest of the published heats lies below the upper critical that is reckoned."""
    if not grade.composition or is_beyond_alloys(grade.nominal):
        return NOTHING
    turned_c = upper_critical(grade.nominal).celsius
    if not low_c < turned_c < high_c:
        return NOTHING
    return say(
        "By its composition it is all turned only at about {}: keep to the upper end of that.",
        celsius(turned_c),
    )


def dissolves_slowly(grade: Grade) -> bool:
    """Whether a steel's carbides want a soak of SLOW_SOAK_S at its hardening heat."""
    composition = grade.nominal
    alloy = sum(composition.get(element, 0.0) for element in ("Cr", "W", "Mo", "V"))
    return composition.get("C", 0.0) >= EUTECTOID_CARBON_SHARE and alloy >= SLOW_CARBIDES_SHARE


def soaked_s(grade: Grade) -> tuple[float, float]:
    """How long a grade is held at its hardening heat, in seconds.

    >>> from coach.metals.grade import grade
    >>> soaked_s(grade("1084")), soaked_s(grade("O1"))
    ((300.0, 600.0), (600.0, 1800.0))
    """
    return SLOW_SOAK_S if dissolves_slowly(grade) else SOAK_S


def harmless_soak_s(longest_s: float) -> float:
    """Up to how long a soak at the right heat does no more harm than one of the longest that is asked for.

    >>> harmless_soak_s(600.0)
    900.0
    """
    return _HARMLESS_TIMES * longest_s


def _soak(grade: Grade) -> str:
    low, high = (f"{one / 60.0:g}" for one in soaked_s(grade))
    even = "Let the colour run even through the thickest part, with no shadow left"
    if dissolves_slowly(grade):
        return f"{even}; then hold it {low} to {high} min, for its carbides dissolve slowly."
    return f"{even}; then hold it {low} to {high} min, a thick piece longer, and no hotter."


def quench_words(grade: Grade, medium: str = "") -> Words:
    """How the medium of a grade is used, or another that is chosen; why there is none where it has none."""
    if not medium and grade.quench is None:
        return as_words(grade.unknown.get("quench", "What it is quenched in is not known."))
    medium = medium or (grade.quench.medium if grade.quench is not None else "")
    if medium == "salt":
        return as_words("Salt at the heat that its maker gives for it: straight down, and keep it moving.")
    if medium == "air":
        return as_words("Hang it in still air, away from the cold anvil, and let it cool evenly.")
    heats = _WATER_C if medium in ("water", "brine") else _OIL_C
    brine = medium == "brine"
    return say(
        "{} at {} to {}{}: edge or face first, straight down, and keep it moving.",
        "Brine of 5 to 10 % salt" if brine else medium.capitalize(),
        *map(celsius, heats),
        ", faster than water" if brine else "",
    )


def normalise_words(grade: Grade, first_c: float | None = None, heats: int = NORMALISING_HEATS) -> Words:
    """How a grade is normalised, from its highest heat or from a lower one in °C that is chosen, so often."""
    low_c, high_c = grade.normalising_low_c, grade.normalising_high_c
    if first_c is not None and low_c is not None and high_c is not None and low_c <= first_c < high_c:
        high_c = first_c
    if low_c is None or high_c is None:
        key = "normalising_low_c" if low_c is None else "normalising_high_c"
        return as_words(grade.unknown.get(key, "At what heat it is normalised is not known."))
    from_c = say("each time from {}" if heats > 1 else "from {}", celsius(high_c))
    if low_c < high_c and heats > 1:
        less = "each time from a little less, last from {}" if heats > 2 else "then from {}"
        from_c = say(f"first from {{}}, {less}", celsius(high_c), celsius(low_c))
    words = "After the last forging or welding heat let it cool {} in still air till it is black: {}."
    return say(words, _TIMES.get(heats, f"{heats} times"), from_c)


def normalising_heats_c(grade: Grade, first_c: float, heats: int) -> tuple[float, ...]:
    """From what each of so many heats of a normalising is let cool, °C: each from a little less than before.

    Evenly from the first, or the grade's highest where that is lower, down to its lowest; none where the
    grade has no such heats, or the first is no higher than its lowest.

    Args:
        grade: the steel.
        first_c: the first of them, °C.
        heats: how many.
    """
    low_c, high_c = grade.normalising_low_c, grade.normalising_high_c
    if low_c is None or high_c is None or heats < 2:
        return ()
    from_c = min(first_c, high_c)
    if from_c <= low_c:
        return ()
    return tuple(from_c - (from_c - low_c) * one / (heats - 1) for one in range(heats))


def _temper_words(grade: Grade) -> Words:
    low_c, high_c = grade.tempering_low_c, grade.tempering_high_c
    span = NOTHING
    if low_c is not None and high_c is not None:
        span = say(" at {} to {}", celsius(low_c), celsius(high_c))
    return say(
        "Temper at once, when it has cooled to between {} and {}, and within about an hour: two cycles of "
        "1 to 2 h{}. "
        "Left overnight as quenched, it can crack by itself.",
        *map(celsius, COOLED_C),
        span,
    )
