"""The amounts that a smith types: what each kind may be written in, between which bounds, and its reader."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from coach.quantities.errors import SizeError, briefly
from coach.quantities.measures import Measure, spelt
from coach.quantities.numerals import LONGEST_TEXT

LENGTH: Final = Measure(
    name="a length",
    base="mm",
    words=spelt(
        mm="millimetre millimetres millimeter millimeters",
        cm="centimetre centimetres centimeter centimeters",
        m="metre metres meter meters",
        ft="' foot feet",
    )
    | dict.fromkeys(("in", '"', "ins", "inch", "inches"), "in"),
    offered="mm, cm, m, in or ft",
    example="31.5 mm or 1 1/4 in",
    most=Fraction(100_000),
    bounds="more than 0 and at most 100 m",
    joins=frozenset({("ft", "in"), ("m", "cm"), ("m", "mm"), ("cm", "mm")}),
)


def read_length_mm(text: str, unit: str = "mm") -> float:
    """Return the length written in `text`, in millimetres, more than 0 and at most 100 m.

    `unit` is that of a bare number: mm, cm, m, in or ft. Read are `31.5`, `31,5`, `.5 in`, `3.1 cm`,
    `1 1/4 in`, `1-1/4"`, `5/8 in`, `1½ in`, `1' 2"`, `1 ft 2 in`, with units in either case.
    Nothing is evaluated. Raises SizeError with one sentence for anything else.

    >>> read_length_mm("1 1/4 in")
    31.75
    """
    return float(LENGTH.read(text, unit))


MASS: Final = Measure(
    name="a mass",
    base="g",
    words=spelt(
        g="gram grams gramme grammes",
        kg="kilo kilos kilogram kilograms kilogramme kilogrammes",
        oz="ounce ounces",
        lb="lbs pound pounds",
    ),
    offered="g, kg, oz or lb",
    example="415 g or 1 lb 4 oz",
    most=Fraction(1_000_000),
    bounds="more than 0 and at most 1000 kg",
    joins=frozenset({("lb", "oz"), ("kg", "g")}),
)


def read_mass_g(text: str, unit: str = "g") -> float:
    """Return the mass written in `text`, in grams, more than 0 and at most 1000 kg.

    `unit` is that of a bare number: g, kg, oz or lb. Ounces and pounds are avoirdupois.
    Raises SizeError with one sentence for anything that is not a mass.

    >>> read_mass_g("1.2 kg")
    1200.0
    """
    return float(MASS.read(text, unit))


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


DURATION: Final = Measure(
    name="a duration",
    base="s",
    words=spelt(
        s="sec secs second seconds",
        min="m mins minute minutes",
        h="hr hrs hour hours",
    ),
    offered="s, min or h",
    example="90 s, 3 min or 1 h 30 min",
    most=Fraction(3_600_000),
    bounds="more than 0 and at most 1000 h",
    joins=frozenset({("h", "min"), ("min", "s"), ("h", "s")}),
)


def read_duration_s(text: str) -> float:
    """Return the duration written in `text`, in seconds, more than 0 and at most 1000 h.

    A bare number is in minutes. `1:30` is refused: it is minutes on one clock and hours on another.
    Raises SizeError with one sentence for anything that is not a duration.

    >>> read_duration_s("1 h 30 min")
    5400.0
    """
    if ":" in text[:LONGEST_TEXT]:
        raise SizeError(
            f"{briefly(text)} can be read as hours or as minutes; type a duration such as 1 h 30 min or 90 s."
        )
    return float(DURATION.read(text, "min"))


ANGLE: Final = Measure(
    name="an angle",
    base="deg",
    words=spelt(deg="° degs degree degrees"),
    offered="° or deg",
    example="45° or 22.5 deg",
    most=Fraction(360),
    bounds="more than 0° and at most 360°",
)


def read_angle_deg(text: str) -> float:
    """Return the angle written in `text`, in degrees, more than 0 and at most 360.

    Raises SizeError with one sentence for anything that is not such an angle.

    >>> read_angle_deg("22 1/2°")
    22.5
    """
    return float(ANGLE.read(text, "deg"))


SHARE: Final = Measure(
    name="a share",
    base="%",
    words=dict.fromkeys(("%", "percent"), "%"),
    offered="%",
    example="3 %, with the % sign",
    most=Fraction(100),
    bounds="from 0 % to 100 %",
    least_allowed=True,
)


def read_share(text: str) -> float:
    """Return the share written in `text`, from 0 to 1: `3 %` is 0.03.

    A bare number is refused, for 0.03 can mean three in a hundred or three in ten thousand.
    Raises SizeError with one sentence for anything that is not a share.

    >>> read_share("3 %")
    0.03
    """
    return float(SHARE.read(text, None) / 100)
