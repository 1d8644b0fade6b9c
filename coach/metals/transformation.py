"""At what temperatures a steel turns to austenite and to martensite, and begins to melt, by its composition.

A composition is the per cent by mass of each element by its symbol; one that is not there counts as 0. The
equations are fits to measured steels, good to 10 to 20 °C (from memory) or worse, and mostly for less carbon
than an edge has: a point says where one is used beyond that. They are in `transformation.toml`, with sources.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from coach.quantities.figure import COVERAGE, Figure, celsius
from coach.quantities.refusal import OutOfRange

#: Ac1 is a fit to measured steels, good to 10 to 20 °C (from memory); a listing of Russian grades, undated,
#: is 2 to 7 °C off it (confirmed second-hand).
CRITICAL_DOUBT_C: Final = 20.0 / COVERAGE

#: Ac3 is less sure, in °C: the same listing is 8 to 30 off (confirmed second-hand), Andrews' own deviation
#: was 16.7 (from memory).
TURNED_DOUBT_C: Final = 20.0

#: So is Ms, in °C: the same listing is 21 and 43 off (confirmed second-hand).
MARTENSITE_DOUBT_C: Final = 25.0

#: With more of an alloy than it was fitted to, Ac1 may be so far off, in °C: D2 comes out at 926, and is told
#: at some 790 to 815 (from memory).
ALLOYED_DOUBT_C: Final = 120.0 / COVERAGE

#: The most carbon that austenite holds, in %: published iron-carbon diagram, edition not
#: seen (confirmed).
HIGHEST_CARBON_SHARE: Final = 2.14

#: Carbon, per cent by mass, of steel that turns whole at one temperature: iron-carbon diagram,
#: edition not seen (confirmed).
EUTECTOID_CARBON_SHARE: Final = 0.77

#: Of more carbon than this, per cent by mass, the rest stays behind as carbide at the usual hardening heat:
#: 0.75 to 0.85 % is dissolved, and the most is taken (judgement).
DISSOLVED_CARBON_SHARE: Final = 0.85

#: Koistinen and Marburger's coefficient, per °C below the martensite start (from memory).
MARTENSITE_PER_C: Final = 0.011

#: Up to this much carbon, per cent by mass, Andrews' straight line serves for Ms, above it van Bohemen's
#: (from memory: the range of his steels).
STRAIGHT_CARBON_SHARE: Final = 0.6

#: A quench goes down to the air of the shop, in °C (judgement).
QUENCHED_TO_C: Final = 20.0

#: Andrews 1965: less than so much of each, per cent by mass (from memory).
_ANDREWS_BELOW: Final = (("C", 0.6), ("Mn", 4.9), ("Cr", 5.0), ("Ni", 5.0), ("Mo", 5.4))
#: The long form of Andrews 1965 raises Ac3 by so many °C for each per cent of phosphorus (from memory).
_PHOSPHORUS_C: Final = 700.0
#: Steven and Haynes 1956: so much carbon, per cent by mass (confirmed second-hand).
_STEVEN_HAYNES_CARBON: Final = (0.1, 0.55)


class CriticalPoint(NamedTuple):
    """A temperature at which the steel turns, reckoned from its composition."""

    name: str  # Ac1, Ac3 or Ms, which comes again by other equations: the first is the one to use
    temperature: Figure | None  # None where the steel has none
    source: str  # the equation and how far it is confirmed, or why there is none
    extrapolated: str  # why this steel is outside what the equation is published for

    @property
    def celsius(self) -> float:
        """The temperature in °C; not a number where the steel has none."""
        return math.nan if self.temperature is None else self.temperature.value


def fitted_c(fit: str, composition: Mapping[str, float]) -> float:
    """The temperature in °C that one of the fits of `transformation.toml` makes of a composition.

    The constant, and each element times its coefficient, whether or not the steel is within the published
    range. Raises OutOfRange for a share that is not from 0 to 100 %.

    >>> spring_steel = {"C": 0.60, "Mn": 0.875, "Si": 0.25, "Cr": 0.80}
    >>> fits = ("Ac1", "Ac3", "Ms of Andrews", "Ms of van Bohemen")
    >>> [round(fitted_c(fit, spring_steel), 2) for fit in fits]
    [734.43, 763.93, 248.92, 263.91]
    """
    for element, share in composition.items():
        # Written so that a share which is not a number is refused too.
        if not 0.0 <= share <= 100.0:
            raise OutOfRange(
                f"The share of {element} must be from 0 to 100 % by mass, not {share:g}; correct it in the "
                "composition."
            )
    carbon = composition.get("C", 0.0)
    shares = {**composition, "sqrt C": math.sqrt(carbon), "bent C": 1.0 - math.exp(-0.96 * carbon)}
    told = _fits()[fit]
    times: Mapping[str, float] = told["times"]
    return float(told["constant"]) + sum(each * shares.get(what, 0.0) for what, each in times.items())


def retained_austenite_share(ms_c: float) -> float:
    """How much austenite is left after a quench to 20 °C, as a share of 1.

    exp(-0.011 (Ms - 20)), and all of it where the quench does not go below Ms.
    Source: D. P. Koistinen and R. E. Marburger, Acta Metallurgica 7 (1959), 59 (from memory).

    >>> round(retained_austenite_share(191.03), 3)
    0.152
    """
    return math.exp(-MARTENSITE_PER_C * max(0.0, ms_c - QUENCHED_TO_C))


def check_carbon(carbon_share: float) -> None:
    """Raises OutOfRange outside 0 to 2.14 % of carbon by mass."""
    # Written so that a share which is not a number is refused too.
    if not 0.0 <= carbon_share <= HIGHEST_CARBON_SHARE:
        raise OutOfRange(
            f"Steel has 0 to {HIGHEST_CARBON_SHARE} % of carbon, not {carbon_share:g} %; give it in per "
            "cent, 0.45 for C45."
        )


def solidus_c(carbon_share: float) -> float:
    """The temperature in °C at which iron with `carbon_share` % of carbon by mass begins to melt.

    Straight lines between the invariants of the iron-carbon diagram: 1538 - 482.2 C up to 0.09 %, 1494.6 to
    0.17 %, and 1494.6 - 175.7 (C - 0.17) to 2.14 % at 1148.4 °C; good to SOLIDUS_DOUBT_C. Commercial steel
    burns 80 to 150 °C below it, as phosphorus and sulphur gather at its grain boundaries (from memory).
    Raises OutOfRange outside 0 to 2.14 %.
    Source: the invariants, published iron-carbon phase diagram, edition not seen (confirmed); the
    straight lines between them, judgement.

    >>> round(solidus_c(0.85), 1)
    1375.1
    """
    check_carbon(carbon_share)
    # The two straight lines run through the peritectic plateau between them.
    if carbon_share <= 0.17:
        return max(1538.0 - 482.2 * carbon_share, 1494.6)
    return 1494.6 - 175.7 * (carbon_share - 0.17)


def lower_critical(composition: Mapping[str, float]) -> CriticalPoint:
    """Where a steel begins to turn to austenite on heating.

    >>> lower_critical({"C": 0.45, "Mn": 0.65, "Si": 0.25}).extrapolated
    ''
    """
    return _point("Ac1", composition, _outside_andrews(composition))


def upper_critical(composition: Mapping[str, float]) -> CriticalPoint:
    """Where the last ferrite has turned on heating; from 0.77 % carbon on, where none is left, Ac1 again.

    >>> upper_critical({"C": 0.84}).source
    'Ac1, as steel of 0.77 % carbon or more has no Ac3; Andrews 1965 (confirmed second-hand)'
    """
    lower, upper = (
        lower_critical(composition),
        _with_phosphorus(_point("Ac3", composition, _outside_andrews(composition)), composition),
    )
    if composition.get("C", 0.0) >= EUTECTOID_CARBON_SHARE:
        why = f"Ac1, as steel of {EUTECTOID_CARBON_SHARE:g} % carbon or more has no Ac3"
        return lower._replace(source=f"{why}; {lower.source.removeprefix('Ac1 of ')}")
    return upper if upper.celsius >= lower.celsius else upper._replace(temperature=lower.temperature)


def _with_phosphorus(upper: CriticalPoint, composition: Mapping[str, float]) -> CriticalPoint:
    """An Ac3 as doubtful as the phosphorus makes it that the short form leaves out, where there is much."""
    higher_c = _PHOSPHORUS_C * composition.get("P", 0.0)
    if higher_c <= CRITICAL_DOUBT_C * COVERAGE:
        return upper
    long_form = f"the long form of Andrews 1965 has {_PHOSPHORUS_C:g} °C for each per cent of phosphorus"
    told = f"{long_form}, from memory, which makes Ac3 about {higher_c:.0f} °C higher."
    beyond = f"{upper.extrapolated} {told}".strip()
    return upper._replace(temperature=celsius(upper.celsius, ALLOYED_DOUBT_C), extrapolated=beyond)


def martensite_starts(composition: Mapping[str, float]) -> tuple[CriticalPoint, ...]:
    """What Andrews, Steven and Haynes, and van Bohemen each make of Ms: how far they are apart is the doubt.

    Van Bohemen's own range of composition is not known to us; his curve counts as published at any carbon.

    >>> [round(one.celsius) for one in martensite_starts({"C": 0.60, "Mn": 0.875, "Si": 0.25, "Cr": 0.80})]
    [249, 234, 264]
    """
    carbon, (low, high) = composition.get("C", 0.0), _STEVEN_HAYNES_CARBON
    beyond = ""
    if not low <= carbon <= high:
        published = f"Steven and Haynes 1956 is published for {low:g} to {high:g} % carbon"
        beyond = f"{published}; this steel has {carbon:g} %."
    return (
        _point("Ms of Andrews", composition, _outside_andrews(composition)),
        _point("Ms of Steven and Haynes", composition, beyond),
        _point("Ms of van Bohemen", composition),
    )


def martensite_points(composition: Mapping[str, float]) -> tuple[CriticalPoint, ...]:
    """Where martensite begins to form in a quench, by each equation, the one to use first.

    That is Andrews' up to 0.6 % carbon and van Bohemen's above. Of more carbon than DISSOLVED_CARBON_SHARE
    the rest stays behind as carbide, so that the martensite has no more; whether the steel is outside a
    published range is told of all its carbon.

    >>> round(martensite_points({"C": 0.84, "Mn": 0.75, "Si": 0.20})[0].celsius)
    207
    """
    carbon = composition.get("C", 0.0)
    dissolved = {**composition, "C": min(carbon, DISSOLVED_CARBON_SHARE)}
    capped = f"with {DISSOLVED_CARBON_SHARE:g} % carbon dissolved, " if dissolved["C"] < carbon else ""
    starts = martensite_starts(dissolved)
    andrews, *between, bohemen = (
        found._replace(
            temperature=celsius(found.celsius, _doubt_among(found, starts)),
            source=f"{capped}{found.source}",
            extrapolated=whole.extrapolated,
        )
        for found, whole in zip(starts, martensite_starts(composition), strict=True)
    )
    if carbon > STRAIGHT_CARBON_SHARE:
        return (bohemen, andrews, *between)
    return (andrews, *between, bohemen)


def _doubt_among(one: CriticalPoint, all_of_them: Sequence[CriticalPoint]) -> float:
    """The standard uncertainty of one equation's Ms, °C: how far off the others are, where that is more."""
    return max(MARTENSITE_DOUBT_C, *(abs(other.celsius - one.celsius) / COVERAGE for other in all_of_them))


def critical_points(composition: Mapping[str, float]) -> tuple[CriticalPoint, ...]:
    """Where a steel of a known composition turns: Ac1, Ac3 and `martensite_points`."""
    carbon, upper = composition.get("C", 0.0), upper_critical(composition)
    if carbon >= EUTECTOID_CARBON_SHARE:
        below = f"only steels below {EUTECTOID_CARBON_SHARE:g} % have; use Ac1."
        upper = CriticalPoint("Ac3", None, f"A steel with {carbon:g} % carbon has no Ac3, {below}", "")
    return (lower_critical(composition), upper, *martensite_points(composition))


def _point(fit: str, composition: Mapping[str, float], extrapolated: str = "") -> CriticalPoint:
    fitted_doubt_c = {"Ac1": CRITICAL_DOUBT_C, "Ac3": TURNED_DOUBT_C}.get(fit, MARTENSITE_DOUBT_C)
    doubt_c = ALLOYED_DOUBT_C if is_beyond_alloys(composition) else fitted_doubt_c
    at = celsius(fitted_c(fit, composition), doubt_c)
    return CriticalPoint(fit.split(maxsplit=1)[0], at, _fits()[fit]["source"], extrapolated)


def is_beyond_alloys(composition: Mapping[str, float]) -> bool:
    """Whether a steel has more of an alloy, carbon apart, than the equations were fitted to.

    >>> is_beyond_alloys({"C": 1.5, "Cr": 12.0}), is_beyond_alloys({"C": 0.95, "Mn": 0.4})
    (True, False)
    """
    return any(composition.get(name, 0.0) >= most for name, most in _ANDREWS_BELOW if name != "C")


def _outside_andrews(composition: Mapping[str, float]) -> str:
    beyond = [(name, most) for name, most in _ANDREWS_BELOW if composition.get(name, 0.0) >= most]
    if not beyond:
        return ""
    limits = " and ".join(f"{most:g} % {name}" for name, most in beyond)
    has = " and ".join(f"{composition[name]:g} %" for name, _ in beyond)
    return f"Andrews 1965 is published for less than {limits}; this steel has {has}."


@cache
def _fits() -> dict[str, dict[str, Any]]:
    import tomllib

    return tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8"))
