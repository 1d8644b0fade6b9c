"""How heat moves inside a piece between its middle and its surface.

One dimension, from the middle of a slab, a round bar or a ball to its surface: finite volumes about nodes
that stand closer together towards the surface, of which the first is the middle and the last the surface
itself. The unknown is the heat held, so what leaves the surface is missing inside to the last digit, across
the transformation too. In time the two-stage implicit method of Alexander, SIAM J. Numer. Anal. 14 (1977),
p. 1006 (from memory): second order, and it damps the sudden start. Each stage is solved by Newton's method on
a tridiagonal system.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from operator import add, mul, sub, truediv
from typing import Final, NamedTuple

from coach.metals.thermal import STEEL, Metal

#: With many more nodes and shorter steps the surface of a slab of 120 mm falls 50 °C in 1.2 % less time, that
#: of a bar of 56 mm in 0.4 % less, and both fall 400 °C in the same (computed).
NODES: Final = 20
STEP_C: Final = 16.0

#: A step changes the heat lost by about this share at most, which matters as the piece nears its end (our
#: choice).
_STEP_SHARE: Final = 0.05
_GROWTH: Final = 2.0
#: The first steps cross so many °C less, as the surface starts all at once and the depths only follow (our
#: choice).
_START_SHARE: Final = 0.1
#: How much closer the nodes stand towards the surface; 1 is evenly (our choice).
_CLOSER: Final = 2.0
#: The two-stage, stiffly stable Runge-Kutta of R. Alexander 1977 (from memory).
_GAMMA: Final = 1.0 - math.sqrt(0.5)
#: An iteration that moves no node by more is the last: its error goes by the square of that, and moves the
#: time of a whole cooling by 1e-5 of it at most (computed).
_SETTLED_C: Final = 0.3
#: A run that is to end at a temperature comes so near to it (our choice).
_ENDS_WITHIN_C: Final = 1e-3
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
    hotter than the metal's heat is published for.

    >>> from itertools import islice
    >>> still = moments(HalfSection(30, 2), 1000.0, lambda surface_c: 120.0 * (surface_c - 20.0))
    >>> [(round(now.surface_c), round(now.middle_c)) for now in islice(still, 0, 60, 20)]
    [(1000, 1000), (950, 997), (729, 763)]
    """
    run = _Run(shape, start_c, metal, loss_w_m2, nodes, step_c)
    yield run.moment
    while run.moves:
        run.take(run.next_step(run.step_s))
        yield run.moment


def moments_to(
    end_c: float,
    shape: HalfSection,
    start_c: float,
    loss_w_m2: Callable[[float], float],
    metal: Metal = STEEL,
    *,
    middle: bool = False,
    nodes: int = NODES,
    step_c: float = STEP_C,
) -> Iterator[Moment]:
    """The piece, as `moments` has it, until its surface (or its middle) comes to `end_c`.

    The last moment is reckoned there and not read between two others. Raises OutOfRange as `moments` does.
    """
    run = _Run(shape, start_c, metal, loss_w_m2, nodes, step_c)
    node = 0 if middle else -1
    way = math.copysign(1.0, end_c - start_c)
    yield run.moment
    while run.moves:
        step = run.next_step(run.step_s)
        if way * (step.temperatures[node] - end_c) >= 0.0:
            run.take(_landed(run, step, node, end_c))
            yield run.moment
            return
        run.take(step)
        yield run.moment


def _landed(run: _Run, beyond: _Step, node: int, end_c: float) -> _Step:
    """The step that brings a node to a temperature which `beyond` passes: false position, Illinois' way."""
    low_s, low_c = 0.0, run.temperatures[node] - end_c
    high_s, high_c, step = beyond.seconds, beyond.temperatures[node] - end_c, beyond
    for _ in range(_MOST_HALVINGS):
        if abs(step.temperatures[node] - end_c) < _ENDS_WITHIN_C:
            break
        step = run.next_step((low_s * high_c - high_s * low_c) / (high_c - low_c))
        off_c = step.temperatures[node] - end_c
        if off_c * high_c > 0.0:
            low_c /= 2.0
        else:
            low_s, low_c = high_s, high_c
        high_s, high_c = step.seconds, off_c
    return step


class _Step(NamedTuple):
    seconds: float
    temperatures: list[float]
    held: list[float]
    leaving_w_m2: float


class _Run:
    """A piece on its way: what it holds now, and how long the next step may be."""

    def __init__(
        self,
        shape: HalfSection,
        start_c: float,
        metal: Metal,
        loss_w_m2: Callable[[float], float],
        nodes: int,
        step_c: float,
    ) -> None:
        metal.enthalpy_j_kg(start_c)  # refuses what is not published
        self._grid, self._metal, self._loss_w_m2 = _Grid(shape, metal, loss_w_m2, nodes), metal, loss_w_m2
        held = self._grid.heats.enthalpy_j_kg(start_c)
        self._start_c, self._step_c = start_c, step_c
        self.temperatures = [start_c] * nodes
        self._held = [held] * nodes
        self._rates = [0.0] * nodes
        self.moment = Moment(0.0, start_c, start_c, held, 0.0)
        self._leaving = loss_w_m2(start_c)
        #: Whether anything leaves it or comes to it.
        self.moves = self._leaving != 0.0
        first_j_m2 = _START_SHARE * step_c * self._grid.masses[-1] * metal.specific_heat_j_kg_k(start_c)
        self.step_s = first_j_m2 / abs(self._leaving) if self.moves else 0.0

    def next_step(self, step_s: float) -> _Step:
        """A step of this length, or of less where it is hard to find."""
        return self._grid.step(step_s, self.temperatures, self._held, self._rates)

    def take(self, step: _Step) -> None:
        """Go on by a step."""
        moved = list(map(sub, step.temperatures, self.temperatures))
        moved_c = max(map(abs, moved))
        self._rates = [by / step.seconds for by in moved]
        self.temperatures, self._held = step.temperatures, step.held
        self._metal.specific_heat_j_kg_k(min(max(step.temperatures), self._metal.highest_c + 1.0))
        masses = self._grid.masses
        self.moment = Moment(
            self.moment.seconds + step.seconds,
            step.temperatures[-1],
            step.temperatures[0],
            sum(map(mul, masses, step.held)) / self._grid.mass,
            self.moment.lost_j_m2 + step.seconds * step.leaving_w_m2,
        )
        before, self._leaving = self._leaving, self._loss_w_m2(step.temperatures[-1])
        changed = abs(self._leaving - before) / max(abs(before), abs(self._leaving), 1e-300)
        gone_c = _START_SHARE * (self._step_c + abs(step.temperatures[-1] - self._start_c))
        most_c = min(self._step_c, gone_c)
        self.step_s = step.seconds * min(
            _GROWTH, most_c / max(moved_c, 1e-12), _STEP_SHARE / max(changed, 1e-12)
        )


class _Heats(dict[int, tuple[float, float]]):
    """What a metal holds about each whole degree asked for: a straight line's height at 0 °C, and its slope.

    It goes on straight for an iteration that oversteps what is published.
    """

    def __init__(self, metal: Metal) -> None:
        super().__init__()
        self._holds_j_kg, self._first = metal.enthalpy_j_kg, math.ceil(metal.lowest_c)
        self._last = math.floor(metal.highest_c) - 1

    def __missing__(self, degree: int) -> tuple[float, float]:
        known = min(max(degree, self._first), self._last)
        low, high = self._holds_j_kg(known), self._holds_j_kg(known + 1)
        self[degree] = low - (high - low) * known, high - low
        return self[degree]

    def enthalpy_j_kg(self, temperature_c: float) -> float:
        """The heat held at a temperature, as the runs count it."""
        enthalpy, specific_heat = self[int(temperature_c)]
        return enthalpy + specific_heat * temperature_c


class _Conducts(dict[int, float]):
    """How a metal conducts at each whole degree asked for; beyond what is published as at its end."""

    def __init__(self, metal: Metal) -> None:
        super().__init__()
        self._metal = metal

    def __missing__(self, degree: int) -> float:
        metal = self._metal
        self[degree] = metal.conductivity_w_m_k(min(max(degree, metal.lowest_c), metal.highest_c))
        return self[degree]


@cache
def _properties(metal: Metal) -> tuple[_Heats, _Conducts]:
    return _Heats(metal), _Conducts(metal)


class _Grid:
    """The finite volumes of one half section, for each m² of its surface."""

    def __init__(
        self, shape: HalfSection, metal: Metal, loss_w_m2: Callable[[float], float], nodes: int
    ) -> None:
        half_m, n = shape.half_thickness_mm / 1000.0, shape.dimensions
        # As shares of the half thickness, closer towards the surface, where a short cooling happens.
        places = [1.0 - (1.0 - i / (nodes - 1)) ** _CLOSER for i in range(nodes)]
        # Half-way between the nodes; the middle and the surface close the row.
        faces = [0.0, *((inner + outer) / 2.0 for inner, outer in pairwise(places)), 1.0]
        self.masses = [
            metal.density_kg_m3 * half_m * (outer**n - inner**n) / n for inner, outer in pairwise(faces)
        ]
        self.mass = metal.density_kg_m3 * half_m / n
        self._areas_per_width = [
            face ** (n - 1.0) / (half_m * (outer - inner))
            for face, (inner, outer) in zip(faces[1:-1], pairwise(places), strict=True)
        ]
        self.heats, self._conducts = _properties(metal._replace(density_kg_m3=0.0))
        self._loss_w_m2 = loss_w_m2

    def step(
        self, step_s: float, temperatures: Sequence[float], held: Sequence[float], rates: Sequence[float]
    ) -> _Step:
        """One step in time, of the length that could be taken, which is `step_s` but in hard places.

        `rates` in °C/s only say where to look first.
        """
        share = (1.0 - _GAMMA) / _GAMMA
        for _ in range(_MOST_HALVINGS):
            part_s = _GAMMA * step_s
            guess = [t + part_s * by for t, by in zip(temperatures, rates, strict=True)]
            first = self._stage(part_s, guess, held)
            if first:
                carried = [h + share * (h1 - h) for h, h1 in zip(held, first.held, strict=True)]
                guess = [
                    t1 + share * (t1 - t) for t, t1 in zip(temperatures, first.temperatures, strict=True)
                ]
                second = self._stage(part_s, guess, carried)
                if second:
                    # What leaves on the mean over the step.
                    leaving = _GAMMA * (share * first.leaving_w_m2 + second.leaving_w_m2)
                    return second._replace(seconds=step_s, leaving_w_m2=leaving)
            step_s /= 2.0
        raise ArithmeticError("The conduction of heat could not be solved.")

    def _stage(self, part_s: float, guess: list[float], carried: Sequence[float]) -> _Step | None:
        """What is held when `carried` is joined by the heat that flows for `part_s`; None if not found.

        Most of a cooling is reckoned here: that masses count by `part_s` saves its products with the flows.
        """
        t = guess
        masses = [mass / part_s for mass in self.masses]
        heats, conducts, loss_w_m2 = self.heats, self._conducts, self._loss_w_m2
        for _ in range(_MOST_ITERATIONS):
            # Thomas's elimination, from the middle outwards.
            links: list[float] = []
            over: list[float] = []
            rest: list[float] = []
            inward = flow_in = over_in = rest_in = 0.0
            here = t[0]
            for outer, area, mass, held in zip(t[1:], self._areas_per_width, masses, carried, strict=False):
                outward = area * conducts[int((here + outer) * 0.5 + 0.5)]
                flow_out = outward * (outer - here)
                enthalpy, specific_heat = heats[int(here)]
                pivot = mass * specific_heat + outward + inward * (1.0 - over_in)
                lacking = mass * (held - enthalpy - specific_heat * here) + flow_out - flow_in
                rest_in = (lacking + inward * rest_in) / pivot
                over_in = outward / pivot
                links.append(outward)
                over.append(over_in)
                rest.append(rest_in)
                inward, flow_in, here = outward, flow_out, outer
            leaving = loss_w_m2(here)
            # The slope of the loss; the loss is smooth, so the distance matters little.
            slope = (loss_w_m2(here + 0.1) - leaving) / 0.1
            enthalpy, specific_heat = heats[int(here)]
            pivot = masses[-1] * specific_heat + slope + inward * (1.0 - over_in)
            lacking = masses[-1] * (carried[-1] - enthalpy - specific_heat * here) - leaving - flow_in
            change = (lacking + inward * rest_in) / pivot
            changes = [change]
            for rest_in, over_in in zip(reversed(rest), reversed(over), strict=True):
                change = rest_in + over_in * change
                changes.append(change)
            t = list(map(add, t, reversed(changes)))
            if max(map(abs, changes)) < _SETTLED_C:
                # From the flows and not from the temperatures, so that no heat is lost to rounding.
                flows = list(map(mul, links, map(sub, t[1:], t)))
                leaving = loss_w_m2(t[-1])
                gained = map(sub, [*flows, -leaving], [0.0, *flows])
                return _Step(part_s, t, list(map(add, carried, map(truediv, gained, masses))), leaving)
        return None
