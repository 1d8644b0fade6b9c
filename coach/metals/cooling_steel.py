"""The heat that steel gives back as it cools, which is not the way by which it took it.

EN 1993-1-2 publishes the specific heat of steel on heating, with the heat of the transformation at 735 °C. As
it cools, austenite stays austenite down to some 50 °C under its critical temperature, with its own specific
heat, and only there gives that heat back: colder than any heat that steel is quenched from.

- Austenite: 620 J/kgK. EN 1993-1-2 has 650 of it above 900 °C (confirmed second-hand), iron as austenite has
  591 at 800 °C by Dinsdale 1991 (from memory), and 0.8 % of carbon make it more: W. C. Hagel, G. M. Pound and
  R. F. Mehl, Calorimetric study of the austenite:pearlite transformation, Acta Metallurgica 4 (1956), p. 37
  (confirmed that it does, from memory by how much).
- What is given back below is what EN 1993-1-2 has taken up in all (confirmed second-hand), so that a whole
  cooling gives back what the heating took. For steel of 0.8 % of carbon that is 94 kJ/kg at 685 °C; Hagel,
  Pound and Mehl measured 19.6 cal/g, 82 kJ/kg, at 727 °C, good to 5 % (confirmed), and some 9 more at 685 °C,
  as pearlite holds more than austenite.
"""

from __future__ import annotations

from functools import cache
from typing import Final

from coach.metals.grade_file import Grade
from coach.metals.thermal import STEEL, Metal, enthalpy_j_kg, specific_heat_j_kg_k
from coach.metals.transformation import is_beyond_alloys, upper_critical

#: Of austenite between its transformation and where EN 1993-1-2 has 650 (judgement between the two sources
#: that the module names), in J/kgK.
AUSTENITE_J_KG_K: Final = 620.0
_AS_PUBLISHED_FROM_C: Final = 900.0

#: Steel that cools in air turns so much lower than it was heated to turn, in °C (from memory: at 650 to 700).
TURNS_LOWER_C: Final = 50.0
#: Where that of steel with 0.77 % carbon or more begins, by the peak of EN 1993-1-2 (confirmed second-hand),
#: and over how much it goes in air (judgement).
_HEATED_TURNS_C: Final = 735.0
TURNS_FROM_C: Final = _HEATED_TURNS_C - TURNS_LOWER_C
_TURNED_C: Final = TURNS_FROM_C - 40.0
#: No steel begins to turn hotter than pure iron, 912 °C (confirmed; iron-carbon diagram,
#: edition not seen), less what it is undercooled.
_MOST_C: Final = 912.0 - TURNS_LOWER_C


def turns_from_c(grade: Grade) -> float:
    """Where a grade begins to turn as it cools in air, in °C: TURNS_LOWER_C under its upper critical heat.

    Of one whose composition is not known, or is beyond the equations, as steel of 0.77 % carbon.

    >>> from coach.metals.grade import grade
    >>> round(turns_from_c(grade("1084"))), round(turns_from_c(grade("mild steel")))
    (671, 783)
    """
    if not grade.composition or is_beyond_alloys(grade.nominal):
        return TURNS_FROM_C
    below_c = upper_critical(grade.nominal).celsius - TURNS_LOWER_C
    return min(max(below_c, _TURNED_C + 10.0), _MOST_C)


def cooling_steel(from_c: float, turns_from_c: float = TURNS_FROM_C) -> Metal:
    """Steel on its way down from a heat: austenite where that was hot enough to make it, else as it was.

    >>> steel = cooling_steel(815.0)
    >>> steel.specific_heat_j_kg_k(735.0), round(steel.specific_heat_j_kg_k(665.0)), round(
    ...     steel.enthalpy_j_kg(1200.0)
    ... )
    (620.0, 3198, 827064)
    """
    return _turning(turns_from_c) if from_c >= _HEATED_TURNS_C else _unturned()


@cache
def _turning(from_c: float) -> Metal:
    """Austenite down to where it turns, and what it gives back from there on."""
    level_j_kg = enthalpy_j_kg(_AS_PUBLISHED_FROM_C)
    at_turn_j_kg = level_j_kg - AUSTENITE_J_KG_K * (_AS_PUBLISHED_FROM_C - from_c)
    turned_j_kg = enthalpy_j_kg(_TURNED_C)
    given_back = (at_turn_j_kg - turned_j_kg) / (from_c - _TURNED_C)

    def holds(temperature_c: float) -> float:
        published = enthalpy_j_kg(temperature_c)
        if temperature_c >= _AS_PUBLISHED_FROM_C or temperature_c <= _TURNED_C:
            return published
        if temperature_c >= from_c:
            return level_j_kg - AUSTENITE_J_KG_K * (_AS_PUBLISHED_FROM_C - temperature_c)
        return turned_j_kg + given_back * (temperature_c - _TURNED_C)

    def specific_heat(temperature_c: float) -> float:
        published = specific_heat_j_kg_k(temperature_c)
        if temperature_c >= _AS_PUBLISHED_FROM_C or temperature_c <= _TURNED_C:
            return published
        return AUSTENITE_J_KG_K if temperature_c >= from_c else given_back

    return STEEL._replace(specific_heat_j_kg_k=specific_heat, enthalpy_j_kg=holds)


@cache
def _unturned() -> Metal:
    """Steel that was not heated to where it turns: the peak that EN 1993-1-2 runs up to is the turning."""
    last_j_kg_k = specific_heat_j_kg_k(TURNS_FROM_C)

    def holds(temperature_c: float) -> float:
        published = enthalpy_j_kg(temperature_c)
        if not TURNS_FROM_C < temperature_c < _HEATED_TURNS_C:
            return published
        return enthalpy_j_kg(TURNS_FROM_C) + last_j_kg_k * (temperature_c - TURNS_FROM_C)

    def specific_heat(temperature_c: float) -> float:
        published = specific_heat_j_kg_k(temperature_c)
        return last_j_kg_k if TURNS_FROM_C < temperature_c < _HEATED_TURNS_C else published

    return STEEL._replace(specific_heat_j_kg_k=specific_heat, enthalpy_j_kg=holds)
