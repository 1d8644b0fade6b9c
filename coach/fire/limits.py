"""Between which heats an iron or steel, or several in one piece, may be worked."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from coach.metals.grade_file import Grade
from coach.metals.transformation import solidus_c
from coach.quantities.between import between
from coach.quantities.figure import Figure, celsius
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import NOTHING, Words, as_words, say

#: The largest safe forging heat in °C by % of carbon, forging handbooks of about 1939 (from memory). They do
#: not fall evenly; they stand here as they were given.
HANDBOOK_HIGHEST_C: Final = ((0.10, 1315.0), (0.40, 1260.0), (0.60, 1180.0), (0.80, 1205.0), (0.95, 1175.0))

#: The heat at which plain steel burns, in °C by % of carbon, a forging handbook of 1939 (from memory). Where
#: it is lower than what is taken from HANDBOOK_HIGHEST_C it holds: at 0.95 % it has 1208 and the other 1225,
#: at 1.05 % 1184 and 1207, and of two the lower is the safer.
HANDBOOK_BURNS_C: Final = (
    (0.10, 1490.0),
    (0.20, 1471.0),
    (0.50, 1349.0),
    (0.70, 1282.0),
    (0.90, 1221.0),
    (1.10, 1171.0),
    (1.50, 1138.0),
)

#: Two limits nearer than this, in °C, are told apart neither by eye nor by most pyrometers; a reading is
#: good to 15 °C, a colour to 40 (judgement).
HELD_APART_C: Final = 30.0

#: A forging heat above the highest that is published passes by so much, in °C: colours are read no closer
#: (judgement).
READ_APART_C: Final = 40.0

#: Steel is taken to burn this far above the largest safe forging heat, in °C; judgement.
BURNING_ABOVE_HANDBOOK_C: Final = 50.0

#: Steel is taken to burn no nearer to its solidus than this, in °C; judgement: 80 to 150 are told.
BURNING_BELOW_SOLIDUS_C: Final = 100.0

#: Below this the fibres of wrought iron split, in °C (from memory).
FIBRES_SPLIT_BELOW_C: Final = 850.0

#: Steel of less carbon than this, per cent by mass, gives cold as well; it only stiffens (from memory).
WORKS_COLD_BELOW_CARBON_SHARE: Final = 0.30

#: Between these soft steel is blue and short: it may crack where it would bend cold, in °C (from memory).
BLUE_SHORT_C: Final = (200.0, 350.0)

#: Below this steel has turned back from austenite and must not be hammered, in °C; about Ac1 (from memory).
STEEL_TURNS_BELOW_C: Final = 725.0


class KnownHeat(NamedTuple):
    """One heat, or why it is not known."""

    temperature: Figure | None
    source: str  # where it is from and how far that is confirmed, or why it is not known


class Cold(NamedTuple):
    """When a grade has become too cold to hammer."""

    back_below: Figure | None  # back to the fire
    stop_below: Figure | None  # not one blow more; None where nobody knows
    sentence: Words
    source: str
    otherwise: str = ""  # what becomes of it below that
    gives_cold: bool = False  # whether it gives to light blows when it is cold, and only stiffens


class HeatsInCommon(NamedTuple):
    """The heats that all the grades stand in one piece; None where there are none."""

    low: Figure | None  # the lowest
    high: Figure | None  # the highest
    ceiling: Figure | None  # what none of them may pass, even where no heat suits them all
    low_set_by: str  # the grade that sets the lowest
    high_set_by: str  # the grade that sets the highest
    sentence: Words  # what to do


def worked_at(grade: Grade, *, welding: bool = False) -> tuple[KnownHeat, KnownHeat]:
    """Between which heats a grade is forged or, with `welding`, welded in the fire, as its file has them.

    >>> from coach.metals.grade import grade
    >>> worked_at(grade("wrought iron"))[0].source
    'handbook consensus; fibres split below about 850 °C (from memory)'
    """
    work = "welding" if welding else "forging"
    return _limit(grade, f"{work}_low_c"), _limit(grade, f"{work}_high_c")


def burning_limit(grade: Grade) -> KnownHeat:
    """The heat above which a grade must be feared to burn.

    The largest safe forging heat by carbon, read between HANDBOOK_HIGHEST_C, nowhere more than that of less
    carbon, for more carbon melts sooner (the iron-carbon diagram, from memory), and 50 °C; the grade's own
    highest heat where that is more, as for wrought iron, a welding heat with what two readings are held apart
    by; and in no case nearer than 100 °C to the solidus, nor above HANDBOOK_BURNS_C.
    Below 0.10 % carbon the first row stands; above 0.95 % the last row's distance from the solidus is kept
    (judgement). Only carbon counts. Raises OutOfRange above 2.14 % carbon.
    Sources: the handbook heats (from memory), `coach.metals.transformation`, the two margins (judgement).

    >>> from coach.metals.grade import grade
    >>> burning_limit(grade("mild steel")).temperature.value
    1350.3
    """
    carbon_share = grade.carbon_share
    if carbon_share is None:
        return KnownHeat(None, grade.unknown.get("carbon_share", "Its carbon is not known."))
    heats_c = [_handbook_highest_c(carbon_share) + BURNING_ABOVE_HANDBOOK_C]
    heats_c += [grade.forging_high_c] if grade.forging_high_c is not None else []
    heats_c += [grade.welding_high_c + HELD_APART_C] if grade.welding_high_c is not None else []
    burns_c = between(HANDBOOK_BURNS_C, min(max(carbon_share, 0.10), 1.50))
    limit_c = min(max(heats_c), solidus_c(carbon_share) - BURNING_BELOW_SOLIDUS_C, burns_c)
    base = f"forging handbooks of about 1939 at {carbon_share:g} % carbon and 50 °C"
    if limit_c == burns_c:
        base = f"a forging handbook of 1939, where {carbon_share:g} % carbon burns, which is less than others"
    elif max(heats_c) > heats_c[0]:
        base = "its own forging heat or 30 °C above its own welding heat, more than handbooks allow"
    return KnownHeat(celsius(round(limit_c, 1)), f"{base}, at most 100 °C below the solidus (judgement)")


def burns_above(grade: Grade, temperature_c: float) -> Figure | None:
    """The heat above which a grade must be feared to burn, where this one in °C is above it; else None."""
    try:
        limit = burning_limit(grade).temperature
    except OutOfRange:
        return None
    return limit if limit is not None and temperature_c > limit.value else None


def burning_words(grade: Grade, temperature_c: float) -> Words:
    """What to say of a heat in °C that a grade must be feared to burn at; nothing of another.

    >>> from coach.metals.grade import grade
    >>> str(burning_words(grade("1084"), 1300))
    '1300 °C is above 1230 °C, from where 1084 must be feared to burn.'
    """
    limit = burns_above(grade, temperature_c)
    above = "{} is above {}, from where {} must be feared to burn."
    return NOTHING if limit is None else say(above, celsius(temperature_c), limit, grade.name)


def too_cold(grade: Grade) -> Cold:
    """When to stop hammering a grade.

    Wrought iron goes back to the fire below its lowest forging heat and stops at 850 °C, steel at about
    725 °C. Of a grade without a lowest forging heat nothing is known. Sources: the grade's file and the
    constants here (from memory).

    >>> from coach.metals.grade import grade
    >>> str(too_cold(grade("C80")).sentence)
    'Back to the fire below 800 °C, and not one blow below 725 °C: C80 no longer gives there but cracks.'
    """
    back, low_source = _limit(grade, "forging_low_c")
    stop_c, source = STEEL_TURNS_BELOW_C, "where steel turns back from austenite, about Ac1 (from memory)"
    otherwise, why, blow = "it cracks", f"{grade.name} no longer gives there but cracks", "not one blow"
    iron, soft = _is_wrought_iron(grade), gives_cold(grade)
    if iron:
        stop_c, source = FIBRES_SPLIT_BELOW_C, "where the fibres of wrought iron split (from memory)"
        otherwise = "its fibres split"
        why = (
            f"the fibres of {grade.name} split; where it cracks at a red heat above that, it is red-short "
            "and must be worked hotter"
        )
    elif back is None:
        unknown = "How cold {} may be struck is not known: try it on a piece of scrap first."
        return Cold(None, None, say(unknown, grade.name), low_source)
    elif soft:
        otherwise, blow = "it stiffens", "no heavy blow"
        why = "{} only stiffens there, and at a blue heat, {} to {}, it can crack"
    stop = celsius(stop_c)
    stop = stop if back is None else min(stop, back, key=lambda heat: heat.value)
    reason = say(why, grade.name, *map(celsius, BLUE_SHORT_C)) if soft else as_words(why)
    if back is None:
        return Cold(None, stop, say("Not one blow below {}: {}.", stop, reason), source, otherwise)
    sentence = say("Back to the fire below {}, and {} below {}: {}.", back, blow, stop, reason)
    return Cold(back, stop, sentence, f"{low_source}; {source}", otherwise, gives_cold=soft)


def gives_cold(grade: Grade) -> bool:
    """Whether it is a steel with so little carbon that cold it bends and stiffens instead of cracking."""
    soft = grade.carbon_share is not None and grade.carbon_share < WORKS_COLD_BELOW_CARBON_SHARE
    return soft and not _is_wrought_iron(grade)


def common_range(grades: Sequence[Grade], *, welding: bool = False) -> HeatsInCommon:
    """The heats that all the grades of one piece stand, to forge them or, with `welding`, to weld them.

    From the highest of their lower limits to the lowest of their upper ones. Where a limit is unknown, or
    the lower would be above the upper, there is none, and the sentence says which grade is in the way and
    what to do instead. Raises ValueError when no grade is given.
    Source: those of each grade; that a composite weld is run at the lower ceiling (from memory).

    >>> from coach.metals.grade import grade
    >>> str(common_range([grade("wrought iron"), grade("C80")]).sentence)
    'Forge from 900 °C to 1100 °C: wrought iron must not get colder, C80 not hotter.'
    """
    lows: list[tuple[Figure, str]] = []
    highs: list[tuple[Figure, str]] = []
    for one in grades:
        low, high = worked_at(one, welding=welding)
        if low.temperature is None or high.temperature is None:
            return HeatsInCommon(None, None, None, "", "", _not_known(one, welding))
        lows.append((low.temperature, one.name))
        highs.append((high.temperature, one.name))
    # Of grades with the same limit, the first one given is named.
    lowest, coldest = max(lows, key=lambda limit: limit[0].value)
    highest, hottest = min(highs, key=lambda limit: limit[0].value)
    if lowest.value > highest.value:
        sentence = _apart((lowest, coldest), (highest, hottest), welding)
        return HeatsInCommon(None, None, highest, coldest, hottest, sentence)
    why = f": {coldest} must not get colder, {hottest} not hotter"
    if welding:  # as it leaves the fire: out of it, it gets colder while it takes
        why = f" as it leaves the fire: {coldest} takes no colder, {hottest} stands no hotter"
    if len({one.name for one in grades}) == 1:
        why = ""
    elif coldest == hottest:
        why = f": {coldest} sets both limits"
    sentence = say("{} from {} to {}{}.", "Weld" if welding else "Forge", lowest, highest, why)
    if coldest != hottest and highest.value - lowest.value < HELD_APART_C:
        closer = "{} No fire is held so closely: take the heat on the {}, keep the {} back from it."
        sentence = say(closer, sentence, coldest, hottest)
    return HeatsInCommon(lowest, highest, highest, coldest, hottest, sentence)


def too_hot_words(grade: Grade, temperature_c: float) -> Words:
    """What to say of a heat to forge a grade at: that it burns, or is above its highest; else nothing.

    >>> from coach.metals.grade import grade
    >>> bool(too_hot_words(grade("O1"), 1150.0)), bool(too_hot_words(grade("O1"), 1060.0))
    (True, False)
    """
    burns, highest = burning_words(grade, temperature_c), worked_at(grade)[1].temperature
    if burns or highest is None or temperature_c <= highest.value + READ_APART_C:
        return burns
    told = "{} is above {}, the most that {} is forged at: hotter its grain grows coarse."
    return say(told, celsius(temperature_c), highest, grade.name)


def _not_known(grade: Grade, welding: bool) -> Words:
    work = "welding" if welding else "forging"
    instead = "weld and bend a coupon first" if welding else "try it on a piece of scrap first"
    return say("No {} heat is known for {}, so none can be given; {}.", work, grade.name, instead)


def _apart(low: tuple[Figure, str], high: tuple[Figure, str], welding: bool) -> Words:
    (lowest, coldest), (highest, hottest) = low, high
    instead = as_words("forge them before they are joined")
    if welding:
        borax = "weld with borax at {}, with the heat on the {} and the {} kept back from it"
        instead = say(borax, highest, coldest, hottest)
    return say(
        "No {} heat suits them all: {} needs {}, {} stands no more than {}; {}.",
        "welding" if welding else "forging",
        *(coldest, lowest, hottest, highest),
        instead,
    )


def _limit(grade: Grade, key: str) -> KnownHeat:
    temperature_c: float | None = getattr(grade, key)
    if temperature_c is None:
        return KnownHeat(None, grade.unknown.get(key, "No figure was found."))
    return KnownHeat(celsius(temperature_c), grade.sources.get(key, "no source given (judgement)"))


def _handbook_highest_c(carbon_share: float) -> float:
    first, last = HANDBOOK_HIGHEST_C[0], HANDBOOK_HIGHEST_C[-1]
    if carbon_share <= first[0]:
        return first[1]
    if carbon_share <= last[0]:
        less = [heat_c for carbon, heat_c in HANDBOOK_HIGHEST_C if carbon <= carbon_share]
        return min(between(HANDBOOK_HIGHEST_C, carbon_share), *less)
    return last[1] + solidus_c(carbon_share) - solidus_c(last[0])


def _is_wrought_iron(grade: Grade) -> bool:
    names = {name.casefold() for name in grade.names}
    return not names.isdisjoint({"wrought iron", "puddled iron"})
