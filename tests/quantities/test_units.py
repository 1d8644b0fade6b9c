"""That conversions are exact, and that pint is not loaded for the units of the shop."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction
from functools import cache
from itertools import permutations
from pathlib import Path

import pint
import pytest

import coach
from coach.quantities.units import KNOWN, convert

ROOT = Path(coach.__file__).parents[1]
COSTLY = ("pint", "pydantic", "yaml", "textual", "rich")


# Exact definitions: the agreement of 1959 for inch, foot, pound and ounce; BIPM SI Brochure (9th ed., 2019),
# section 2.3.1 and table 8; NIST SP 811 (2008), appendix B.8 for the degree Fahrenheit.
@pytest.mark.parametrize(
    ("number", "unit", "wanted", "expected"),
    [
        (1, "in", "mm", Fraction(254, 10)),
        (1, "ft", "mm", Fraction(3048, 10)),
        (1, "m", "mm", Fraction(1000)),
        (1, "cm", "mm", Fraction(10)),
        (127, "mm", "in", Fraction(5)),
        (1, "lb", "g", Fraction(45359237, 100000)),
        (16, "oz", "lb", Fraction(1)),
        (1, "kg", "g", Fraction(1000)),
        (1, "min", "s", Fraction(60)),
        (1, "h", "s", Fraction(3600)),
        (212, "degF", "degC", Fraction(100)),
        (32, "degF", "degC", Fraction(0)),
        (-40, "degF", "degC", Fraction(-40)),
        (100, "degC", "degF", Fraction(212)),
    ],
)
def test_a_conversion_is_exact(number: int, unit: str, wanted: str, expected: Fraction) -> None:
    assert convert(Fraction(number), unit, wanted) == expected


def test_a_length_is_never_converted_to_a_mass() -> None:
    with pytest.raises(pint.DimensionalityError):
        convert(Fraction(1), "in", "g")


def loaded_after(code: str) -> set[str]:
    """Return which costly libraries a fresh interpreter holds after running `code`."""
    report = f"{code}\nimport sys\nprint(*(name for name in {COSTLY!r} if name in sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", report], cwd=ROOT, check=True, capture_output=True, text=True, timeout=60
    )
    return set(done.stdout.split())


def test_importing_quantities_loads_no_costly_library() -> None:
    assert loaded_after("import coach.quantities") == set()


def test_default_units_are_read_and_written_without_pint() -> None:
    code = """
from coach.quantities import *
from coach.telling.limits import *
from coach.telling.writing import *
read_limits("28 +0 -1 mm"), read_mass_g("415 g"), read_temperature_c("900 °C"), read_duration_s("3 min")
read_angle_deg("45°"), read_share("3 %"), read_limits("820 to 860 °C", read_temperature_c)
write_length(31.5), write_limits(read_limits("27 to 29")), write_mass(1240), write_temperature(900)
write_duration(11400), write_share(0.03), write_angle(45)
"""
    assert loaded_after(code) == set()


@pytest.mark.parametrize(("unit", "wanted"), list(permutations(KNOWN, 2)))
def test_every_pair_of_units_agrees_with_pints_own_definitions(unit: str, wanted: str) -> None:
    registry = _pint()
    for number in (Fraction(0), Fraction(1), Fraction(-4027, 113)):
        asked = registry.Quantity(number, unit)
        if asked.check(registry.Unit(wanted).dimensionality):
            assert convert(number, unit, wanted) == asked.to(wanted).magnitude
        else:
            with pytest.raises(pint.DimensionalityError):
                convert(number, unit, wanted)


@cache
def _pint() -> pint.UnitRegistry[Fraction]:
    return pint.UnitRegistry(non_int_type=Fraction)


def test_the_shops_other_units_are_read_without_pint_too() -> None:
    code = """
from coach.quantities import *
from coach.telling.writing import *
read_length_mm("1 ft 2 in"), read_mass_g("2 lb 3 oz"), read_temperature_c("1500 °F"), read_duration_s("1 h")
write_length(31.5, Shown("in")), write_mass(1240, Shown("in")), write_temperature(900, Shown("in"))
"""
    assert loaded_after(code) == set()


def test_pint_converts_a_unit_that_the_table_lacks() -> None:
    # BIPM SI Brochure, 9th edition (2019), section 2.3.1: 0 °C is 273.15 K.
    assert convert(Fraction(0), "degC", "kelvin") == Fraction("273.15")
    assert loaded_after("from coach.quantities.units import *\nconvert(1, 'mile', 'mm')") == {"pint"}
