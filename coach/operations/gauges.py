"""What sizes are read with, and how far each can be trusted on forged metal."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import Final, NamedTuple

from coach.quantities import Kind


class Gauge(NamedTuple):
    """A gauge's standard uncertainties (common practice, no source; a shop may know better)."""

    name: str
    cold_mm: float  # each reading's own error on cold metal
    hot_mm: float  # the same at heat: gloves, glare and haste
    bias_mm: float  # what is wrong with the gauge itself, the same in every reading of a job
    share: float  # further error in proportion to the size


#: No gauge at all: what it cannot settle is as good as the eye can make it.
BY_EYE = "by eye"
#: What is cut to the shape of one bend or angle, and held to it.
TEMPLATE = "template"
#: As each gauge says of itself: standard uncertainties in mm, cold, hot and of the gauge, and a share of the
#: size (common practice, no source).
GAUGES: dict[str, Gauge] = {
    gauge.name: gauge
    for gauge in (
        Gauge("calliper", 0.10, 0.25, 0.05, 0.0),
        Gauge("rule", 0.30, 0.50, 0.10, 0.001),
        Gauge("tape", 0.60, 1.00, 0.30, 0.001),
        Gauge(TEMPLATE, 0.25, 0.40, 0.10, 0.0),
        Gauge(BY_EYE, 1.50, 2.00, 0.50, 0.02),
    )
}

#: The most that a gauge spans, mm, where it has an end: callipers of 150 mm are the usual ones (common
#: practice, no source).
USUAL_SPANS_MM: Final[Mapping[str, float]] = {"calliper": 150.0}
#: An own span lies between these, mm (our choice).
LEAST_SPAN_MM, MOST_SPAN_MM = 10.0, 3000.0
#: An own doubt lies between a thousandth of a millimetre and ten (our choice).
LEAST_DOUBT_MM, MOST_DOUBT_MM = 0.001, 10.0
USUAL_GAUGES: Final[Mapping[str, Gauge]] = dict(GAUGES)
"""The same where a shop has set none of its own."""
_own: dict[str, float] = {}


def take_own_doubts(own: Mapping[str, float]) -> None:
    """Take a shop's own doubts from now on, by `calliper.cold_mm`; of the rest, those that are usual.

    A reading keeps those that it was entered with, `doubts_of`: what was read does not change by what is
    said of its gauge later.
    """
    _own.clear()
    _own.update(own)
    for name, usual in USUAL_GAUGES.items():
        GAUGES[name] = Gauge(
            name,
            own.get(f"{name}.cold_mm", usual.cold_mm),
            own.get(f"{name}.hot_mm", usual.hot_mm),
            own.get(f"{name}.bias_mm", usual.bias_mm),
            usual.share,
        )


def span_mm(gauge: str) -> float:
    """The most that a gauge of this shop spans, mm; infinite where it has no end.

    >>> span_mm("calliper"), span_mm("rule")
    (150.0, inf)
    """
    return _own.get(f"{gauge}.span_mm", USUAL_SPANS_MM.get(gauge, inf))


def doubts_of(gauge: str) -> tuple[float, float, float] | None:
    """What a reading keeps of its gauge: its own error cold and hot and the gauge's, mm; None if as usual."""
    now, usual = GAUGES.get(gauge), USUAL_GAUGES.get(gauge)
    return None if now is None or now == usual else (now.cold_mm, now.hot_mm, now.bias_mm)


def gauge_then(gauge: str, doubts_mm: tuple[float, float, float] | None) -> Gauge | None:
    """A gauge as a reading that keeps those doubts was taken with; None for what is no gauge of the shop.

    >>> gauge_then("calliper", (0.05, 0.25, 0.05)).cold_mm, gauge_then("rule", None).cold_mm
    (0.05, 0.3)
    """
    usual = USUAL_GAUGES.get(gauge)
    return usual if usual is None or doubts_mm is None else Gauge(gauge, *doubts_mm, usual.share)


def own_doubts() -> dict[str, float]:
    """Those that were taken."""
    return dict(_own)


#: The gauge that no other is finer than.
FINEST = min(GAUGES, key=lambda name: GAUGES[name].cold_mm)

#: What tells only of the size that it is held to.
MADE_FOR_ONE = frozenset({TEMPLATE, BY_EYE})
#: What tells of a kind of size that no gauge of the shop measures.
SCALES = "scales"
PYROMETER = "pyrometer"
BY_COLOUR = "by colour"
TOLD_BY = {Kind.MASS: SCALES, Kind.TIME: "clock", Kind.HARDNESS: "tester", Kind.TEST: BY_EYE}
#: Everything that a reading may be taken by.
READ_BY: tuple[str, ...] = (*dict.fromkeys((*GAUGES, *TOLD_BY.values(), PYROMETER, BY_COLOUR)),)

#: Forged faces are not flat: two honest readings a finger's width apart differ by this much, as a standard
#: uncertainty (common practice, no source).
UNEVEN_MM = 0.10
UNEVEN_SHARE = 0.002


def bias_name(gauge: str) -> str:
    """What the bias of a gauge is called among the believed quantities."""
    return f"{gauge} bias"


def by_gauge(gauge: str) -> str:
    """How a size was read.

    >>> by_gauge("calliper"), by_gauge("by eye")
    ('by calliper', 'by eye')
    """
    return gauge if gauge.startswith("by ") else f"by {gauge}"
