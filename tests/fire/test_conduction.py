"""Tests of how heat moves between the middle of a thick piece and its surface."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import islice, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.special import j0, j1

from coach.fire.conduction import HalfSection, Moment, moments
from coach.fire.cooling import Surroundings, heat_loss_w_m2
from coach.metals.thermal import STEEL
from coach.quantities.refusal import OutOfRange
from tests.metals.ideal import constant

PLAIN = constant(650, 7850, 30)
DIFFUSIVITY_M2_S = 30 / 7850 / 650

SLAB = HalfSection(30, 1)
ROUND = HalfSection(30, 2)
BALL = HalfSection(30, 3)


def newton(h_w_m2_k: float, air_c: float = 20) -> Callable[[float], float]:
    """Pure convection, for which the series of the handbooks hold."""
    return lambda surface_c: h_w_m2_k * (surface_c - air_c)


def at(run: Iterator[Moment], seconds: float) -> Moment:
    """The piece at a time, on the straight line between two moments."""
    for before, after in pairwise(run):
        if after.seconds >= seconds:
            share = (seconds - before.seconds) / (after.seconds - before.seconds)
            return Moment(*(b + share * (a - b) for b, a in zip(before, after, strict=True)))
    raise AssertionError("The run ended early.")


def roots(characteristic: Callable[[float], float], brackets: Sequence[tuple[float, float]]) -> list[float]:
    return [float(brentq(characteristic, low, high, xtol=1e-13)) for low, high in brackets]


def slab_series(biot: float, fourier: float) -> tuple[float, float]:
    """Surface and middle as shares of the way from the air to the start.

    Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, §5.5, plane wall (from memory).
    """
    brackets = [(n * math.pi + 1e-9, n * math.pi + math.pi / 2 - 1e-9) for n in range(40)]
    surface = middle = 0.0
    for zeta in roots(lambda z: z * math.sin(z) - biot * math.cos(z), brackets):
        c = 4 * math.sin(zeta) / (2 * zeta + math.sin(2 * zeta))
        term = c * math.exp(-(zeta**2) * fourier)
        middle += term
        surface += term * math.cos(zeta)
    return surface, middle


def round_series(biot: float, fourier: float) -> tuple[float, float]:
    """The same for a long cylinder; Incropera and DeWitt, §5.6 (from memory)."""
    zeros = [0.0, *(float(brentq(j1, n * math.pi, (n + 0.5) * math.pi)) for n in range(1, 40))]
    brackets = [(low + 1e-9, high - 1e-9) for low, high in pairwise(zeros)]
    surface = middle = 0.0
    for zeta in roots(lambda z: float(z * j1(z) - biot * j0(z)), brackets):
        c = 2 / zeta * j1(zeta) / (j0(zeta) ** 2 + j1(zeta) ** 2)
        term = float(c * math.exp(-(zeta**2) * fourier))
        middle += term
        surface += term * float(j0(zeta))
    return surface, middle


def ball_series(biot: float, fourier: float) -> tuple[float, float]:
    """The same for a sphere; Incropera and DeWitt, §5.6 (from memory)."""
    brackets = [(n * math.pi + 1e-9, (n + 1) * math.pi - 1e-9) for n in range(40)]
    surface = middle = 0.0
    for zeta in roots(lambda z: z * math.cos(z) - (1 - biot) * math.sin(z), brackets):
        c = 4 * (math.sin(zeta) - zeta * math.cos(zeta)) / (2 * zeta - math.sin(2 * zeta))
        term = c * math.exp(-(zeta**2) * fourier)
        middle += term
        surface += term * math.sin(zeta) / zeta
    return surface, middle


@pytest.mark.parametrize("biot", [0.1, 0.5, 2.0])
@pytest.mark.parametrize("fourier", [0.1, 0.3, 1.0, 3.0])
@pytest.mark.parametrize(
    ("shape", "series"), [(SLAB, slab_series), (ROUND, round_series), (BALL, ball_series)]
)
def test_cooling_follows_the_series_of_the_handbooks(
    shape: HalfSection, series: Callable[[float, float], tuple[float, float]], fourier: float, biot: float
) -> None:
    surface, middle = series(biot, fourier)
    seconds = fourier * 0.030**2 / DIFFUSIVITY_M2_S
    now = at(moments(shape, 1020, newton(biot * 30 / 0.030), PLAIN), seconds)
    # In °C of a thousand degrees between start and air.
    assert now.surface_c == pytest.approx(20 + 1000 * surface, abs=1.5)
    assert now.middle_c == pytest.approx(20 + 1000 * middle, abs=1.5)


def test_finer_nodes_and_steps_draw_nearer_to_the_series() -> None:
    surface, middle = round_series(2.0, 0.3)
    seconds = 0.3 * 0.030**2 / DIFFUSIVITY_M2_S
    for nodes, step_c, near_c in ((21, 5.0, 1.5), (61, 1.0, 0.1)):
        run = moments(ROUND, 1020, newton(2.0 * 30 / 0.030), PLAIN, nodes=nodes, step_c=step_c)
        now = at(run, seconds)
        assert now.surface_c == pytest.approx(20 + 1000 * surface, abs=near_c)
        assert now.middle_c == pytest.approx(20 + 1000 * middle, abs=near_c)


@pytest.mark.parametrize("shape", [SLAB, ROUND, BALL, HalfSection(40, 1.5)])
@pytest.mark.parametrize(("start_c", "air_c"), [(1200, 20), (20, 1150)])
def test_no_heat_is_lost_but_through_the_surface(shape: HalfSection, start_c: float, air_c: float) -> None:
    surroundings = Surroundings(air_c)
    held_at_start = STEEL.enthalpy_j_kg(start_c)
    kg_m2 = 7850 * shape.half_thickness_mm / 1000 / shape.dimensions
    run = moments(shape, start_c, lambda surface_c: heat_loss_w_m2(surface_c, surroundings))
    # Far enough to take the whole section through the transformation.
    for now in islice(run, 250):
        gone = kg_m2 * (held_at_start - now.held_j_kg)
        assert now.lost_j_m2 == pytest.approx(gone, rel=1e-10, abs=1e-3)
    assert (now.middle_c - 735) * (start_c - 735) < 0


def test_the_published_steel_agrees_with_another_solver_through_the_transformation() -> None:
    # The method of lines on its own grid of cells, by scipy's BDF; the surface from the last half cell.
    cells, half_m = 60, 0.030
    width = half_m / cells
    faces = np.arange(1, cells) * width
    volumes = (np.arange(1, cells + 1) ** 2 - np.arange(cells) ** 2) * width**2 / 2

    def conductivity(t: float) -> float:
        return STEEL.conductivity_w_m_k(min(max(t, 20), 1200))

    def loss(last_c: float) -> tuple[float, float]:
        def excess(surface_c: float) -> float:
            return heat_loss_w_m2(surface_c) - conductivity(last_c) * (last_c - surface_c) / (width / 2)

        surface_c = float(brentq(excess, 20, last_c + 1e-9))
        return surface_c, heat_loss_w_m2(surface_c)

    def rate(_: float, t: np.ndarray) -> np.ndarray:
        means = (t[1:] + t[:-1]) / 2
        flows = np.array([conductivity(float(m)) for m in means]) * np.diff(t) / width * faces
        out = np.concatenate([flows, [-loss(float(t[-1]))[1] * half_m]])
        into = np.concatenate([[0.0], flows])
        heats = np.array([STEEL.specific_heat_j_kg_k(min(max(float(x), 20), 1200)) for x in t])
        return np.asarray((out - into) / (7850 * volumes * heats))

    solved = solve_ivp(
        rate,
        (0, 1000),
        np.full(cells, 1200.0),
        "BDF",
        rtol=1e-6,
        atol=1e-4,
        t_eval=[20, 264, 500, 1000],
    )
    assert solved.success
    for seconds, profile in zip(solved.t, solved.y.T, strict=True):
        now = at(moments(ROUND, 1200, heat_loss_w_m2), float(seconds))
        assert now.surface_c == pytest.approx(loss(float(profile[-1]))[0], abs=1.5)
        assert now.middle_c == pytest.approx(float(profile[0]), abs=1.5)


@pytest.mark.parametrize("shape", [SLAB, ROUND, BALL])
def test_a_piece_that_conducts_without_limit_has_one_temperature(shape: HalfSection) -> None:
    run = moments(shape, 1020, newton(200), constant(650, 7850, 1e7))
    # Incropera and DeWitt eq. (5.6), the lumped exponential (from memory).
    tau_s = 7850 * 650 * 0.030 / shape.dimensions / 200
    now = at(run, tau_s)
    assert now.surface_c == pytest.approx(20 + 1000 / math.e, abs=0.5)
    assert now.middle_c == pytest.approx(now.surface_c, abs=1e-2)


@settings(max_examples=25, deadline=None)
@given(
    st.floats(min_value=15, max_value=120),
    st.floats(min_value=1, max_value=3),
    st.floats(min_value=300, max_value=1200),
    st.floats(min_value=1, max_value=3),
)
def test_the_surface_is_never_hotter_than_the_middle_while_it_cools(
    half_mm: float, dimensions: float, start_c: float, factor: float
) -> None:
    surroundings = Surroundings(anvil_factor=factor)
    run = moments(
        HalfSection(half_mm, dimensions), start_c, lambda t: heat_loss_w_m2(t, surroundings), nodes=9
    )
    for before, now in pairwise(islice(run, 60)):
        assert now.seconds > before.seconds
        assert 20 - 1e-6 <= now.surface_c <= now.middle_c + 1e-6
        assert now.surface_c < before.surface_c
        assert now.middle_c <= before.middle_c + 1e-6


def test_a_piece_as_cold_as_the_air_stays_so() -> None:
    assert list(moments(ROUND, 20, newton(10))) == [Moment(0, 20, 20, 0, 0)]


@pytest.mark.parametrize("start_c", [1394.1, 19, math.nan])
def test_a_start_without_a_published_heat_is_refused(start_c: float) -> None:
    with pytest.raises(OutOfRange, match=r"from 20 to 1394 °C"):
        next(moments(ROUND, start_c, newton(10)))


def test_a_surface_heated_past_the_published_heat_is_refused() -> None:
    fire = Surroundings(1450)
    with pytest.raises(OutOfRange, match=r"from 20 to 1394 °C"):
        list(islice(moments(ROUND, 20, lambda t: heat_loss_w_m2(t, fire)), 1000))
