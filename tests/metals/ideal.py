"""An ideal metal, as the problems of the handbooks have it."""

from __future__ import annotations

from coach.metals.thermal import DENSITY_KG_M3, REFERENCE_C, Metal


def constant(
    specific_heat_j_kg_k: float,
    density_kg_m3: float = DENSITY_KG_M3,
    conductivity_w_m_k: float = 1e7,
) -> Metal:
    """A metal whose properties are the same at every temperature."""
    return Metal(
        specific_heat_j_kg_k=lambda _: specific_heat_j_kg_k,
        enthalpy_j_kg=lambda temperature_c: specific_heat_j_kg_k * (temperature_c - REFERENCE_C),
        conductivity_w_m_k=lambda _: conductivity_w_m_k,
        density_kg_m3=density_kg_m3,
        lowest_c=-273.15,
        highest_c=5000.0,
    )
