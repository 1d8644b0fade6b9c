"""Temperatures as a smith types them, in degrees Celsius."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from coach.quantities.measures import Measure

TEMPERATURE: Final = Measure(
    name="a temperature",
    base="degC",
    words=dict.fromkeys(("°c", "c", "°", "degc", "celsius", "°celsius"), "degC")
    | dict.fromkeys(("°f", "f", "degf", "fahrenheit", "°fahrenheit"), "degF"),
    offered="°C or °F",
    example="900 °C or 1650 °F",
    least=Fraction(-50),
    most=Fraction(1600),
    bounds="from -50 to 1600 °C",
    least_allowed=True,
    signed=True,
)


def read_temperature_c(text: str) -> float:
    """Return the temperature written in `text`, in °C, from -50 to 1600 °C; a bare number is in °C.

    Raises SizeError with one sentence for anything else.

    >>> read_temperature_c("212 °F")
    100.0
    """
    return float(TEMPERATURE.read(text, "degC"))
