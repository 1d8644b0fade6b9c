"""How heat moves inside a thick piece between its middle and its surface.

One dimension, from the middle of a slab, a round bar or a ball to its surface: finite volumes about evenly
spaced nodes, of which the first is the middle and the last the surface itself. The unknown is the heat held,
so what leaves the surface is missing inside to the last digit, across the transformation too. In time the
two-stage implicit method of Alexander, SIAM J. Numer. Anal. 14 (1977), p. 1006 (from memory): second order,
and it damps the sudden start. Each stage is solved by Newton's method on a tridiagonal system.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from coach.metals.thermal import STEEL, Metal

#: Twice as many nodes, or steps half as long, move a time by less than 0.2 %, past the first few seconds.
NODES: Final = 21
STEP_C: Final = 5.0

#: A step changes the heat lost by about this share at most, which matters as the piece nears its end.
_STEP_SHARE: Final = 0.1
_GROWTH: Final = 2.0
_GAMMA: Final = 1.0 - math.sqrt(0.5)
_SETTLED_C: Final = 1e-7
_MOST_ITERATIONS: Final = 12
_MOST_HALVINGS: Final = 40


class Moment(NamedTuple):
    """The piece at one instant."""

    seconds: float
    surface_c: float
    middle_c: float
    held_j_kg: float  # the mean over the section, counted as the metal's enthalpy is
    lost_j_m2: float  # through each m² of surface since the start; below zero where the piece is heated


class HalfSection(NamedTuple):
    """The half section that heat crosses."""

    half_thickness_mm: float
    dimensions: float  # 1 for a slab, 2 for a round bar, 3 for a ball; between them for what lies between


def moments(
    shape: HalfSection,
    start_c: float,
    loss_w_m2: Callable[[float], float],
    metal: Metal = STEEL,
    *,
    nodes: int = NODES,
    step_c: float = STEP_C,
) -> Iterator[Moment]:
    """The piece from a uniform temperature on, moment after moment without end, some `step_c` apart.

    ρ dH/dt = div(λ grad θ), with `loss_w_m2` of the surface's temperature leaving the surface, in W/m².
    Metal is reckoned at its cold size and density. Raises OutOfRange when it starts, or becomes, colder or
    hotter than the metal's conductivity is published for.

    >>> from itertools import islice
    >>> still = moments(HalfSection(30, 2), 1000.0, lambda surface_c: 120.0 * (surface_c - 20.0))
    >>> [(round(now.surface_c), round(now.middle_c)) for now in islice(still, 0, 60, 20)]
    [(1000, 1000), (914, 972), (820, 873)]
    """
    metal.conductivity_w_m_k(start_c)
    grid = _Grid(shape, metal, loss_w_m2, nodes)
    temperatures = [start_c] * nodes
    held = [metal.enthalpy_j_kg(start_c)] * nodes
    seconds = lost_j_m2 = 0.0
    yield Moment(seconds, start_c, start_c, held[0], lost_j_m2)

    leaving = loss_w_m2(start_c)
    if leaving == 0.0:
        return
    step_s = step_c * grid.masses[-1] * metal.specific_heat_j_kg_k(start_c) / abs(leaving)
    while True:
        step_s, step = grid.step(step_s, temperatures, held)
        moved_c = max(abs(new - old) for new, old in zip(step.temperatures, temperatures, strict=True))
        temperatures, held = step.temperatures, step.held
        seconds += step_s
        lost_j_m2 += step_s * step.leaving_w_m2
        if max(temperatures) > metal.highest_conducting_c + 10 * _SETTLED_C:
            metal.conductivity_w_m_k(max(temperatures))  # which says so
        mean = sum(m * h for m, h in zip(grid.masses, held, strict=True)) / grid.mass
        yield Moment(seconds, temperatures[-1], temperatures[0], mean, lost_j_m2)

        before, leaving = leaving, loss_w_m2(temperatures[-1])
        changed = abs(leaving - before) / max(abs(before), abs(leaving), 1e-300)
        step_s *= min(_GROWTH, step_c / max(moved_c, 1e-12), _STEP_SHARE / max(changed, 1e-12))


class _Step(NamedTuple):
    temperatures: list[float]
    held: list[float]
    leaving_w_m2: float


class _Grid:
    """The finite volumes of one half section, for each m² of its surface."""

    def __init__(
        self, shape: HalfSection, metal: Metal, loss_w_m2: Callable[[float], float], nodes: int
    ) -> None:
        half_m, n = shape.half_thickness_mm / 1000.0, shape.dimensions
        width_m = half_m / (nodes - 1)
        # Between the nodes, as shares of the half thickness; the middle and the surface close the row.
        faces = [0.0, *((i + 0.5) / (nodes - 1) for i in range(nodes - 1)), 1.0]
        self.masses = [
            metal.density_kg_m3 * half_m * (outer**n - inner**n) / n for inner, outer in pairwise(faces)
        ]
        self.mass = metal.density_kg_m3 * half_m / n
        self._areas_per_width = [face ** (n - 1.0) / width_m for face in faces[1:-1]]
        self._metal = metal
        self._loss_w_m2 = loss_w_m2

    def step(
        self, step_s: float, temperatures: Sequence[float], held: Sequence[float]
    ) -> tuple[float, _Step]:
        """One step in time, with the length that could be taken, which is `step_s` but in hard places."""
        for _ in range(_MOST_HALVINGS):
            part_s = _GAMMA * step_s
            first = self._stage(part_s, temperatures, held)
            if first:
                share = (1.0 - _GAMMA) / _GAMMA
                carried = [h + share * (h1 - h) for h, h1 in zip(held, first.held, strict=True)]
                second = self._stage(part_s, first.temperatures, carried)
                if second:
                    # What leaves on the mean over the step.
                    leaving = _GAMMA * (share * first.leaving_w_m2 + second.leaving_w_m2)
                    return step_s, second._replace(leaving_w_m2=leaving)
            step_s /= 2.0
        raise ArithmeticError("The conduction of heat could not be solved.")

    def _stage(self, part_s: float, guess: Sequence[float], carried: Sequence[float]) -> _Step | None:
        """What is held when `carried` is joined by the heat that flows for `part_s`; None if not found."""
        t = list(guess)
        last = len(t) - 1
        masses = self.masses
        for _ in range(_MOST_ITERATIONS):
            links = self._links(t)
            flows = [link * (t[i + 1] - t[i]) for i, link in enumerate(links)]
            leaving = self._loss_w_m2(t[last])
            # The slope of the loss; the loss is smooth, so the distance matters little.
            slope = (self._loss_w_m2(t[last] + 0.1) - leaving) / 0.1
            # Thomas's elimination, from the middle outwards.
            over: list[float] = []
            rest: list[float] = []
            inward = flow_in = over_in = rest_in = 0.0
            for i in range(last + 1):
                outward = links[i] if i < last else 0.0
                flow_out = flows[i] if i < last else -leaving
                enthalpy, specific_heat = self._heat(t[i])
                diagonal = masses[i] * specific_heat + part_s * (inward + outward)
                if i == last:
                    diagonal += part_s * slope
                lacking = masses[i] * (carried[i] - enthalpy) + part_s * (flow_out - flow_in)
                pivot = diagonal - part_s * inward * over_in
                over_in = part_s * outward / pivot
                rest_in = (lacking + part_s * inward * rest_in) / pivot
                over.append(over_in)
                rest.append(rest_in)
                inward, flow_in = outward, flow_out
            change = largest = 0.0
            for i in range(last, -1, -1):
                change = rest[i] + over[i] * change
                t[i] += change
                largest = max(largest, abs(change))
            if largest < _SETTLED_C:
                return self._settled(part_s, t, carried)
        return None

    def _settled(self, part_s: float, t: list[float], carried: Sequence[float]) -> _Step:
        # From the flows and not from the temperatures, so that no heat is lost to rounding.
        leaving = self._loss_w_m2(t[-1])
        flows = [link * (t[i + 1] - t[i]) for i, link in enumerate(self._links(t))]
        held = [
            h + part_s * (out - into) / mass
            for h, out, into, mass in zip(
                carried, [*flows, -leaving], [0.0, *flows], self.masses, strict=True
            )
        ]
        return _Step(t, held, leaving)

    def _links(self, t: Sequence[float]) -> list[float]:
        low, high = self._metal.lowest_c, self._metal.highest_conducting_c
        conductivity = self._metal.conductivity_w_m_k
        return [
            area * conductivity(min(max((t[i] + t[i + 1]) / 2.0, low), high))
            for i, area in enumerate(self._areas_per_width)
        ]

    def _heat(self, temperature_c: float) -> tuple[float, float]:
        """Enthalpy and specific heat.

        An iteration may overstep what is published on its way to an answer that does not, so beyond the
        ends the enthalpy goes on straight.
        """
        metal = self._metal
        known_c = min(max(temperature_c, metal.lowest_c), metal.highest_conducting_c)
        specific_heat = metal.specific_heat_j_kg_k(known_c)
        return metal.enthalpy_j_kg(known_c) + specific_heat * (temperature_c - known_c), specific_heat
