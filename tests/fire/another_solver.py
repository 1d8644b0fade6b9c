"""Cooling and soaking by another way than the program's, to hold it against.

The method of lines on even cells, with scipy's LSODA for the time. The unknown of a cell is its temperature;
what leaves the surface has to cross the outer half of the last cell first.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from coach.metals.thermal import conductivity_w_m_k, specific_heat_j_kg_k


class Reference(NamedTuple):
    """A half section of steel with the published properties; above 1200 °C it conducts as at 1200 °C."""

    half_mm: float
    dimensions: float
    loss_w_m2: Callable[[float], float]
    cells: int = 80
    specific_heat_j_kg_k: Callable[[float], float] | None = None  # None takes the published, of heating

    def seconds(self, from_c: float, to_c: float, *, middle: bool = False) -> float:
        """How long its surface, or its middle, takes to a temperature."""
        half_m, n = self.half_mm / 1000, self.dimensions
        edges = np.linspace(0, half_m, self.cells + 1)
        width = half_m / self.cells
        volumes = np.diff(edges**n) / n

        def rate(_: float, t: np.ndarray) -> np.ndarray:
            means = (t[1:] + t[:-1]) / 2
            flows = (
                np.array([_conducts(float(m)) for m in means]) * np.diff(t) / width * edges[1:-1] ** (n - 1)
            )
            out = np.append(flows, -self.loss_w_m2(self._surface_c(float(t[-1]), width)) * half_m ** (n - 1))
            heats = np.array([(self.specific_heat_j_kg_k or _heats)(float(x)) for x in t])
            return np.asarray(np.diff(out, prepend=0) / (7850 * volumes * heats))

        def there(_: float, t: np.ndarray) -> float:
            return (float(t[0]) if middle else self._surface_c(float(t[-1]), width)) - to_c

        there.terminal = True  # type: ignore[attr-defined]
        start = np.full(self.cells, float(from_c))
        banded = {"lband": 1, "uband": 1, "max_step": 60.0}
        solved = solve_ivp(rate, (0, 1e5), start, "LSODA", rtol=1e-6, atol=1e-4, events=there, **banded)
        assert solved.status == 1
        return float(solved.t[-1])

    def _surface_c(self, last_c: float, width: float) -> float:
        conducts = _conducts(last_c) / (width / 2)

        def excess(surface_c: float) -> float:
            return self.loss_w_m2(surface_c) - conducts * (last_c - surface_c)

        return float(brentq(excess, last_c - 1000, last_c + 1000))


def _conducts(at_c: float) -> float:
    return conductivity_w_m_k(min(max(at_c, 20), 1200))


def _heats(at_c: float) -> float:
    return specific_heat_j_kg_k(min(max(at_c, 20), 1394))
