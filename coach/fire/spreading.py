"""How much of a squeezed bar goes sideways, and how much into its length."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from coach.quantities.checks import check_size
from coach.quantities.figure import Kind, Span, mm
from coach.quantities.refusal import OutOfRange

#: The bite as a share of the width, for which the coefficient is published (from memory).
LEAST_BITE_SHARE: Final = 0.25
GREATEST_BITE_SHARE: Final = 1.5

#: Judgement: the coefficient of one smith with one tool lies within plus or minus this of the published one
#: (one standard deviation). The curve of the face, the heat and the angle of the blow all move it; once a
#: heat has been measured, `measured_coefficient` takes the place of the published figure.
COEFFICIENT_DOUBT: Final = 0.08

#: Judgement: below this much change of the height nothing can be told from a measured width.
LEAST_MEASURED_SHARE: Final = 1e-6


class MeasuredSpread(NamedTuple):
    """A spread coefficient found by measuring, with its standard uncertainty."""

    value: float
    doubt: float


def spread_coefficient(bite_mm: float, width_mm: float) -> float:
    """The share of a reduction in height that goes into the width: s = ln(w1/w0) / ln(h0/h1).

    s = 0.14 + 0.36 (b/w0) - 0.054 (b/w0)², b being the bite along the bar and w0 the width across it, both
    in mm; the rest, 1 - s, goes into the length. A small bite draws, a wide one spreads.
    Published for mild steel, hot, between flat tools, at about b/w0 = 0.25 to 1.5; raises OutOfRange
    elsewhere. One smith's own tool differs by about COEFFICIENT_DOUBT.
    Source: A. Tomlinson and J. D. Stringer, Spread and elongation in flat tool forging, Journal of the Iron
    and Steel Institute 193 (1959) (from memory, with high confidence in the coefficients).

    >>> round(spread_coefficient(15, 25), 5)
    0.33656
    """
    check_size(bite_mm, "bite")
    check_size(width_mm, "width")
    share = bite_mm / width_mm
    if not LEAST_BITE_SHARE <= share <= GREATEST_BITE_SHARE:
        raise OutOfRange(
            "A bite of {} on a width of {} is outside what is published for spreading; take a bite from {}.",
            mm(bite_mm),
            mm(width_mm),
            Span(LEAST_BITE_SHARE * width_mm, GREATEST_BITE_SHARE * width_mm, Kind.LENGTH),
        )
    return 0.14 + 0.36 * share - 0.054 * share**2


def squeezed_mm(size_mm: float, height_mm: float, new_height_mm: float, share: float) -> float:
    """What a size across the blow becomes when the height is squeezed, all in mm: size (h0/h1)^share.

    The share of the width is the spread coefficient s, from 0 to 1, that of the length 1 - s, so that width,
    height and length together keep their volume. Raises OutOfRange otherwise, and for a new height above the
    old. The definition of s, so it needs no source of its own.

    >>> own = spread_coefficient(15, 25)
    >>> round(squeezed_mm(25, 25, 20, own), 3), round(squeezed_mm(15, 25, 20, 1 - own), 3)
    (26.95, 17.393)
    """
    check_size(size_mm, "size across the blow")
    if not 0.0 <= share <= 1.0:
        raise OutOfRange(f"A spread coefficient lies from 0 to 1, not at {share:g}.")
    return float(size_mm * squeeze(height_mm, new_height_mm) ** share)


def squeeze(height_mm: float, new_height_mm: float) -> float:
    """How many times the new height goes into the old, from 1 upwards; raises OutOfRange below 1.

    >>> squeeze(25, 20)
    1.25
    """
    check_size(height_mm, "height")
    check_size(new_height_mm, "new height")
    if new_height_mm > height_mm:
        raise OutOfRange(
            "A squeeze from {} would make the piece higher; give a new height that is not above the old.",
            Span(height_mm, new_height_mm, Kind.LENGTH),
        )
    ratio = height_mm / new_height_mm
    if math.isinf(ratio):
        raise OutOfRange("A height of {} is no height to forge to; give one in mm.", mm(new_height_mm))
    return ratio


def measured_coefficient(
    width_before_mm: float,
    width_after_mm: float,
    height_before_mm: float,
    height_after_mm: float,
    *,
    doubts_mm: tuple[float, float, float, float],
) -> MeasuredSpread:
    """A smith's own coefficient from one measured heat: s = ln(w1/w0) / ln(h0/h1), with its doubt.

    `doubts_mm` are the standard uncertainties of the four sizes in the order of the arguments, carried
    linearly as if independent: with H = ln(h0/h1), u(s)² = [(u(w0)/w0)² + (u(w1)/w1)² + s² ((u(h0)/h0)² +
    (u(h1)/h1)²)] / H². Nothing is held back: a reading that says less than 0 or more than 1 is wrong or
    from a heat on another side, and its doubt tells how wrong it may be.
    Raises OutOfRange when the height did not get less, for nothing spreads then.
    Source: the definition of s; the doubt is the law of propagation, JCGM 100:2008 §5.1.2 (from memory).

    >>> own = measured_coefficient(25, 26.95, 25, 20, doubts_mm=(0.1, 0.1, 0.1, 0.1))
    >>> round(own.value, 3), round(own.doubt, 3)
    (0.337, 0.026)
    """
    sizes = {
        "width before": width_before_mm,
        "width after": width_after_mm,
        "height before": height_before_mm,
        "height after": height_after_mm,
    }
    for (name, size_mm), doubt_mm in zip(sizes.items(), doubts_mm, strict=True):
        check_size(size_mm, name)
        check_size(doubt_mm, f"doubt of the {name}", may_be_nothing=True)
    if not height_before_mm / height_after_mm > 1.0 + LEAST_MEASURED_SHARE:
        raise OutOfRange(
            "The height did not get less, from {}, so nothing can be learned of the spreading; measure a "
            "heat that was squeezed.",
            Span(height_before_mm, height_after_mm, Kind.LENGTH),
        )
    shares = [doubt_mm / size_mm for size_mm, doubt_mm in zip(sizes.values(), doubts_mm, strict=True)]
    squeezed = math.log(height_before_mm / height_after_mm)
    value = math.log(width_after_mm / width_before_mm) / squeezed
    doubt = math.hypot(shares[0], shares[1], value * shares[2], value * shares[3]) / squeezed
    return MeasuredSpread(value, doubt)
