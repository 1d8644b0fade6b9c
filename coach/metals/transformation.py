"""At what temperatures a steel turns to austenite and to martensite, from its composition.

A composition is the per cent by mass of each element by its symbol; one that is not there counts as 0. The
equations are fits to measured steels, each good to 10 to 20 °C (from memory), and mostly for less carbon than
an edge has: `lower_critical`, `upper_critical` and `martensite_start` say where one is used beyond that.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final, NamedTuple

from coach.quantities.refusal import OutOfRange, Refusal

#: Carbon, per cent by mass, of steel that turns whole at one temperature: iron-carbon diagram.
EUTECTOID_CARBON_SHARE: Final = 0.77

#: Koistinen and Marburger's coefficient, per °C below the martensite start (from memory).
MARTENSITE_PER_C: Final = 0.011

#: Up to this much carbon, per cent by mass, Andrews' straight line serves for Ms, above it van Bohemen's.
STRAIGHT_CARBON_SHARE: Final = 0.6

#: A quench goes down to the air of the shop, in °C.
QUENCHED_TO_C: Final = 20.0

#: Andrews 1965: less than so much of each, per cent by mass (from memory).
_ANDREWS_BELOW: Final = (("C", 0.6), ("Mn", 4.9), ("Cr", 5.0), ("Ni", 5.0), ("Mo", 5.4))
_ANDREWS: Final = "Andrews 1965 (confirmed second-hand)"
#: Steven and Haynes 1956: so much carbon, per cent by mass (confirmed second-hand).
_STEVEN_HAYNES_CARBON: Final = (0.1, 0.55)


class NotGiven(Refusal):
    """A temperature that this steel does not have; its text is one plain sentence."""


class CriticalPoint(NamedTuple):
    """A temperature that was reckoned, with what it rests on."""

    celsius: float
    source: str  # with how far it is confirmed, in brackets at its end
    extrapolated: str  # "", or one sentence that tells why it is outside the published range


def ac1_c(composition: Mapping[str, float]) -> float:
    """Where a steel begins to turn to austenite on heating, in °C.

    Ac1 = 723 - 10.7 Mn - 16.9 Ni + 29.1 Si + 16.9 Cr + 290 As + 6.38 W. One listing prints -29.1 Si, which is
    wrong: silicon raises it. Published for C < 0.6, Mn < 4.9, Cr < 5, Ni < 5, Mo < 5.4 % (from memory).
    Raises OutOfRange for a share that is not from 0 to 100.
    Source: K. W. Andrews, JISI 203 (1965), 721-727 (confirmed second-hand).

    >>> round(ac1_c({"C": 0.60, "Mn": 0.875, "Si": 0.25, "Cr": 0.80}), 2)
    734.43
    """
    mn, ni, si, cr, arsenic, w = _shares(composition, "Mn", "Ni", "Si", "Cr", "As", "W")
    return 723.0 - 10.7 * mn - 16.9 * ni + 29.1 * si + 16.9 * cr + 290.0 * arsenic + 6.38 * w


def ac3_andrews_c(composition: Mapping[str, float]) -> float:
    """Andrews' short form of Ac3 in °C as it stands, whether or not the steel has one; see `ac3_c`.

    910 - 203 sqrt(C) - 15.2 Ni + 44.7 Si + 104 V + 31.5 Mo + 13.1 W. The long form, with manganese and more,
    falls below Ac1 for 5160 and is not used. Range, errors and source as of `ac1_c`.

    >>> round(ac3_andrews_c({"C": 0.60, "Mn": 0.875, "Si": 0.25, "Cr": 0.80}), 2)
    763.93
    """
    c, ni, si, v, mo, w = _shares(composition, "C", "Ni", "Si", "V", "Mo", "W")
    return 910.0 - 203.0 * math.sqrt(c) - 15.2 * ni + 44.7 * si + 104.0 * v + 31.5 * mo + 13.1 * w


def ac3_c(composition: Mapping[str, float]) -> float:
    """Where the last ferrite has turned to austenite on heating, in °C: `ac3_andrews_c`, at least Ac1.

    Raises NotGiven from 0.77 % carbon on, where no ferrite is left above Ac1, and OutOfRange as `ac1_c`.

    >>> round(ac3_c({"C": 0.40, "Mn": 0.70, "Si": 0.25, "Ni": 1.8, "Cr": 0.8, "Mo": 0.25}), 2)
    773.3
    """
    (c,) = _shares(composition, "C")
    if c >= EUTECTOID_CARBON_SHARE:
        raise NotGiven(
            f"A steel with {c:g} % carbon has no Ac3, only steels below {EUTECTOID_CARBON_SHARE:g} % have; "
            "use Ac1."
        )
    return max(ac1_c(composition), ac3_andrews_c(composition))


def ms_andrews_c(composition: Mapping[str, float]) -> float:
    """Where martensite begins to form in a quench, in °C, on a straight line of the carbon.

    Ms = 539 - 423 C - 30.4 Mn - 17.7 Ni - 12.1 Cr - 7.5 Mo. Range, errors and source as of `ac1_c`; far too
    low above 0.6 % carbon.

    >>> round(ms_andrews_c({"C": 0.60, "Mn": 0.875, "Cr": 0.80}), 2)
    248.92
    """
    c, mn, ni, cr, mo = _shares(composition, "C", "Mn", "Ni", "Cr", "Mo")
    return 539.0 - 423.0 * c - 30.4 * mn - 17.7 * ni - 12.1 * cr - 7.5 * mo


def ms_steven_haynes_c(composition: Mapping[str, float]) -> float:
    """Where martensite begins to form in a quench, in °C; a second opinion on `ms_andrews_c`.

    Ms = 561 - 474 C - 33 Mn - 17 Cr - 17 Ni - 21 Mo, for 0.1 to 0.55 % carbon. Raises OutOfRange as
    `ac1_c` does. Source: W. Steven and A. G. Haynes, JISI 183 (1956), 349 (confirmed second-hand).

    >>> round(ms_steven_haynes_c({"C": 0.40, "Mn": 0.70, "Ni": 1.8, "Cr": 0.8, "Mo": 0.25}), 2)
    298.85
    """
    c, mn, cr, ni, mo = _shares(composition, "C", "Mn", "Cr", "Ni", "Mo")
    return 561.0 - 474.0 * c - 33.0 * mn - 17.0 * cr - 17.0 * ni - 21.0 * mo


def ms_van_bohemen_c(composition: Mapping[str, float]) -> float:
    """Where martensite begins to form in a quench, in °C, on a curve that serves above 0.6 % carbon too.

    Ms = 565 - (31 Mn + 13 Si + 10 Cr + 18 Ni + 12 Mo) - 600 (1 - exp(-0.96 C)). Raises OutOfRange as
    `ac1_c` does. The carbon is what is dissolved at the hardening heat: in steels of more than 0.85 % some
    stays behind as carbide. Between 0.9 and 1.1 % carbon it stands 60 to 90 °C above Andrews.
    Source: S. M. C. van Bohemen, Mater. Sci. Technol. 28 (2012), 487-495 (confirmed second-hand).

    >>> round(ms_van_bohemen_c({"C": 0.95, "Mn": 0.40, "Si": 0.20}), 2)
    191.03
    """
    c, mn, si, cr, ni, mo = _shares(composition, "C", "Mn", "Si", "Cr", "Ni", "Mo")
    alloy = 31.0 * mn + 13.0 * si + 10.0 * cr + 18.0 * ni + 12.0 * mo
    return 565.0 - alloy - 600.0 * (1.0 - math.exp(-0.96 * c))


def retained_austenite_share(ms_c: float) -> float:
    """How much austenite is left after a quench to 20 °C, as a share of 1.

    exp(-0.011 (Ms - 20)), and all of it where the quench does not go below Ms.
    Source: D. P. Koistinen and R. E. Marburger, Acta Metallurgica 7 (1959), 59 (from memory).

    >>> round(retained_austenite_share(191.03), 3)
    0.152
    """
    return math.exp(-MARTENSITE_PER_C * max(0.0, ms_c - QUENCHED_TO_C))


def lower_critical(composition: Mapping[str, float]) -> CriticalPoint:
    """`ac1_c` with its source, and whether this steel is outside its published range.

    >>> lower_critical({"C": 0.45, "Mn": 0.65, "Si": 0.25}).extrapolated
    ''
    """
    return CriticalPoint(ac1_c(composition), f"Ac1 of {_ANDREWS}", _outside_andrews(composition))


def upper_critical(composition: Mapping[str, float]) -> CriticalPoint:
    """`ac3_c` with its source; from 0.77 % carbon on it is Ac1, and says so.

    >>> upper_critical({"C": 0.84}).source
    'Ac1, as steel of 0.77 % carbon or more has no Ac3; Andrews 1965 (confirmed second-hand)'
    """
    try:
        celsius = ac3_c(composition)
    except NotGiven:
        why = f"Ac1, as steel of {EUTECTOID_CARBON_SHARE:g} % carbon or more has no Ac3"
        return lower_critical(composition)._replace(source=f"{why}; {_ANDREWS}")
    return CriticalPoint(celsius, f"Ac3, short form, of {_ANDREWS}", _outside_andrews(composition))


def martensite_start(composition: Mapping[str, float]) -> CriticalPoint:
    """`ms_andrews_c` up to 0.6 % carbon and `ms_van_bohemen_c` above, with source and published range.

    Van Bohemen's own range of composition is not known to us; his curve counts as published at any carbon.

    >>> round(martensite_start({"C": 0.84, "Mn": 0.75, "Si": 0.20}).celsius)
    207
    """
    if composition.get("C", 0.0) > STRAIGHT_CARBON_SHARE:
        return martensite_starts(composition)[-1]
    return martensite_starts(composition)[0]


def martensite_starts(
    composition: Mapping[str, float],
) -> tuple[CriticalPoint, CriticalPoint, CriticalPoint]:
    """What Andrews, Steven and Haynes, and van Bohemen each make of Ms: how far they are apart is the doubt.

    >>> [round(one.celsius) for one in martensite_starts({"C": 0.60, "Mn": 0.875, "Si": 0.25, "Cr": 0.80})]
    [249, 234, 264]
    """
    (c,) = _shares(composition, "C")
    low, high = _STEVEN_HAYNES_CARBON
    beyond = ""
    if not low <= c <= high:
        beyond = (
            f"Steven and Haynes 1956 is published for {low:g} to {high:g} % carbon; this steel has {c:g} %."
        )
    return (
        CriticalPoint(ms_andrews_c(composition), f"Ms of {_ANDREWS}", _outside_andrews(composition)),
        CriticalPoint(
            ms_steven_haynes_c(composition),
            "Ms of Steven and Haynes 1956 (confirmed second-hand)",
            beyond,
        ),
        CriticalPoint(ms_van_bohemen_c(composition), "Ms of van Bohemen 2012 (confirmed second-hand)", ""),
    )


def _outside_andrews(composition: Mapping[str, float]) -> str:
    beyond = [(name, most) for name, most in _ANDREWS_BELOW if composition.get(name, 0.0) >= most]
    if not beyond:
        return ""
    limits = " and ".join(f"{most:g} % {name}" for name, most in beyond)
    has = " and ".join(f"{composition[name]:g} %" for name, _ in beyond)
    return f"Andrews 1965 is published for less than {limits}; this steel has {has}."


def _shares(composition: Mapping[str, float], *wanted: str) -> tuple[float, ...]:
    for element, share in composition.items():
        # Written so that a share which is not a number is refused too.
        if not 0.0 <= share <= 100.0:
            raise OutOfRange(
                f"The share of {element} must be from 0 to 100 % by mass, not {share:g}; correct it in the "
                "composition."
            )
    return tuple(composition.get(element, 0.0) for element in wanted)
