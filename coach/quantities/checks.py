"""What a size, a share or a temperature must keep to before anything is reckoned from it.

Every check is written so that what is not a number is refused too.
"""

from __future__ import annotations

from math import inf, isfinite

from coach.quantities.figure import Kind, Span, celsius, mm
from coach.quantities.refusal import OutOfRange


def check_size(size_mm: float, name: str, *, may_be_nothing: bool = False) -> None:
    """Raises OutOfRange unless a size, in mm, is finite and above 0, or 0 where it may be."""
    if not (size_mm >= 0.0 if may_be_nothing else size_mm > 0.0) or size_mm == inf:
        least = "0 or more" if may_be_nothing else "more than 0"
        raise OutOfRange("The {} must be {}, not {}; measure it again.", name, least, mm(size_mm))


def check_share(share: float, name: str, *, may_be_nothing: bool = False, may_be_whole: bool = True) -> None:
    """Raises OutOfRange unless a share lies between 0 and 1, either end with it only where it may be."""
    low = share >= 0.0 if may_be_nothing else share > 0.0
    high = share <= 1.0 if may_be_whole else share < 1.0
    if not (low and high):
        lower = "from 0" if may_be_nothing else "above 0"
        upper = "to 1" if may_be_whole else "below 1"
        raise OutOfRange(f"The {name} must be {lower} and {upper}, not {share:g}; 0.5 means the half.")


def check_temperature(temperature_c: float, low_c: float, high_c: float, sentence: str) -> None:
    """Raises OutOfRange with the sentence, which has braces for the range and for what lies outside of it."""
    if not low_c <= temperature_c <= high_c:
        raise OutOfRange(sentence, Span(low_c, high_c, Kind.TEMPERATURE), celsius(temperature_c))


def finite(figure: float, name: str) -> float:
    """The figure itself; raises OutOfRange where the sizes it came from carried it out of all bounds."""
    if not isfinite(figure):
        raise OutOfRange(f"The {name} cannot be reckoned from these sizes; give them as they are measured.")
    return figure
