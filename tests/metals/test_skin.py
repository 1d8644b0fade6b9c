"""Tests of how deep a fire takes the carbon out of the skin of a steel."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import erf, erfc, erfcinv, erfinv

from coach.metals.diffusion import agren_m2_s, couple_carbon, depth_for
from coach.metals.skin import (
    Lying,
    NoSkin,
    after_loss_mm,
    allowance_mm,
    carbon_profile,
    skin_mm,
    spread_mm2,
    thinned_mm2,
    weld_bleed_mm,
)

shares = st.floats(min_value=0, max_value=2.14)
kept = st.floats(min_value=0.01, max_value=0.99)
spreads_mm2 = st.floats(min_value=1e-6, max_value=10)
lyings = st.builds(Lying, st.floats(min_value=0, max_value=1450), st.floats(min_value=0, max_value=120))
jobs = st.lists(lyings, max_size=6)


def test_four_heats_of_a_tool_steel_leave_the_skin_worked_by_hand() -> None:
    # Ågren's D of 0.8 % at 1100 °C is 1.13e-10 m²/s (worked apart from the program); 4 × 3 min, erf⁻¹ 0.9 =
    # 1.16309: 2 × 1.16309 × sqrt(1.13e-4 mm²/s × 720 s) = 0.664 mm.
    assert skin_mm(spread_mm2(0.8, [Lying(1100, 3)] * 4)) == pytest.approx(0.664, rel=3e-3)


def test_a_skin_is_the_depth_that_diffusion_gives_for_the_same_fire() -> None:
    d_m2_s = agren_m2_s(1050, 0.84)
    expected_m = depth_for(0.8 * 0.84, 0.84, 0, d_m2_s, 900)
    assert skin_mm(spread_mm2(0.84, [Lying(1050, 15)]), 0.8) == pytest.approx(expected_m * 1000)


@given(shares, jobs)
def test_the_order_of_the_heats_does_not_matter(carbon_share: float, job: list[Lying]) -> None:
    assert spread_mm2(carbon_share, job) == spread_mm2(carbon_share, reversed(job))


@given(shares, jobs, jobs)
def test_the_heats_of_two_days_add_up(carbon_share: float, one: list[Lying], other: list[Lying]) -> None:
    together = spread_mm2(carbon_share, one + other)
    assert together == pytest.approx(spread_mm2(carbon_share, one) + spread_mm2(carbon_share, other))


@given(shares, lyings, st.floats(min_value=0, max_value=300))
def test_a_hotter_fire_never_leaves_a_thinner_skin(carbon_share: float, lying: Lying, more_c: float) -> None:
    hotter = Lying(lying.temperature_c + more_c, lying.minutes)
    assert spread_mm2(carbon_share, [lying]) <= spread_mm2(carbon_share, [hotter])


@given(shares, st.floats(min_value=727, max_value=1394), st.floats(min_value=0.1, max_value=60))
def test_four_times_the_time_makes_twice_the_skin(
    carbon_share: float, temperature_c: float, minutes: float
) -> None:
    once = skin_mm(spread_mm2(carbon_share, [Lying(temperature_c, minutes)]))
    assert skin_mm(spread_mm2(carbon_share, [Lying(temperature_c, 4 * minutes)])) == pytest.approx(2 * once)


def test_no_time_and_no_heat_make_no_skin() -> None:
    assert spread_mm2(0.84, []) == 0
    assert spread_mm2(0.84, [Lying(1100, 0)]) == 0
    assert spread_mm2(0.84, [Lying(726, 600), Lying(-10, 600)]) == 0
    assert spread_mm2(0.84, [Lying(727, 1)]) > 0
    assert skin_mm(0) == 0
    assert weld_bleed_mm(0) == 0


def test_a_heat_hotter_than_austenite_counts_as_its_hottest() -> None:
    assert spread_mm2(0.84, [Lying(1500, 2)]) == spread_mm2(0.84, [Lying(1394, 2)])


@given(spreads_mm2, kept, kept)
def test_more_carbon_is_kept_only_deeper(spread: float, one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert skin_mm(spread, less) <= skin_mm(spread, more)


@given(spreads_mm2, kept)
def test_at_the_end_of_the_skin_the_carbon_is_the_kept_share(spread: float, kept_share: float) -> None:
    depth_mm = skin_mm(spread, kept_share)
    assert carbon_profile(0.84, spread, [depth_mm]) == pytest.approx((0.84 * kept_share,))
    # scipy's erfinv.
    assert depth_mm == pytest.approx(2 * float(erfinv(kept_share)) * math.sqrt(spread))


def test_the_profile_rises_from_nothing_to_the_nominal_carbon() -> None:
    profile = carbon_profile(0.84, 0.08, [0, 0.1, 0.2, 0.4, 0.8, 1.6, 10])
    assert profile[0] == 0
    assert all(outer < inner for outer, inner in itertools.pairwise(profile[:-1]))
    assert profile[-1] == pytest.approx(0.84)
    # scipy's erf.
    assert profile[2] == pytest.approx(0.84 * float(erf(0.2 / (2 * math.sqrt(0.08)))))
    assert carbon_profile(0.84, 0, [0, 1]) == (0.84, 0.84)
    assert carbon_profile(0.84, 0.08, []) == ()


@given(spreads_mm2, st.floats(min_value=0.05, max_value=3), kept)
def test_forging_a_section_thinner_thins_its_skin_as_much(
    spread: float, ratio: float, kept_share: float
) -> None:
    forged = skin_mm(thinned_mm2(spread, ratio), kept_share)
    assert forged == pytest.approx(ratio * skin_mm(spread, kept_share))


@given(spreads_mm2, st.floats(min_value=0.05, max_value=1))
def test_drawing_down_never_thickens_a_skin(spread: float, ratio: float) -> None:
    assert thinned_mm2(spread, ratio) <= spread
    assert thinned_mm2(spread, 1) == spread


@given(spreads_mm2, st.floats(min_value=0.05, max_value=1), st.floats(min_value=0, max_value=5))
def test_forging_moves_every_layer_and_keeps_its_carbon(spread: float, ratio: float, depth_mm: float) -> None:
    before = carbon_profile(0.84, spread, [depth_mm])
    assert carbon_profile(0.84, thinned_mm2(spread, ratio), [ratio * depth_mm]) == pytest.approx(before)


def test_a_loss_takes_the_outside_of_the_skin_and_no_more() -> None:
    assert after_loss_mm(0.6, 0) == 0.6
    assert after_loss_mm(0.6, 0.1) == pytest.approx(0.5)
    assert after_loss_mm(0.6, 0.9) == 0


@pytest.mark.parametrize("lost_mm", [0.02, 0.05, 0.1, 0.2])
def test_the_skin_behind_scale_lies_between_the_one_less_the_loss_and_the_whole(lost_mm: float) -> None:
    # Birks and Jackson 1970 (from memory; it solves Fick's law for a face that recedes with the square root
    # of time, which can be checked by hand): C/C0 = 1 - erfc(x / 2 sqrt(Dt)) / erfc(lost / 2 sqrt(Dt)).
    reach_mm = 0.6 / float(erfinv(0.9))
    true_mm = reach_mm * float(erfcinv(0.1 * erfc(lost_mm / reach_mm))) - lost_mm
    assert after_loss_mm(0.6, lost_mm) < true_mm < 0.6
    assert true_mm - after_loss_mm(0.6, lost_mm) < lost_mm / 2
    if lost_mm == 0.1:
        assert true_mm == pytest.approx(0.54, abs=0.005)


def test_the_grinder_is_left_the_skin_with_sound_steel_under_it() -> None:
    assert allowance_mm(0) == 0.1
    assert allowance_mm(0.6) == pytest.approx(0.7)
    assert allowance_mm(0.6, 0) == 0.6


@given(spreads_mm2, st.floats(min_value=0.51, max_value=0.99))
def test_a_weld_bleeds_as_far_as_the_couple_says(spread: float, keep: float) -> None:
    distance_mm = weld_bleed_mm(spread, keep)
    # 1 m²/s for so many m², to lie as far apart as the mm do.
    assert couple_carbon(-distance_mm, 0.84, 0, spread, 1) == pytest.approx(keep * 0.84)
    assert distance_mm < skin_mm(spread, keep)


def test_a_weld_line_never_takes_more_than_half() -> None:
    assert weld_bleed_mm(0.1, 0.5) == 0
    assert weld_bleed_mm(0.1, 0.3) == 0
    # erf⁻¹(0.8) = 0.90619 (Abramowitz and Stegun's table inverted, from memory).
    assert weld_bleed_mm(0.25) == pytest.approx(0.90619, abs=1e-5)


@pytest.mark.parametrize("wrong", [-0.01, math.inf, -math.inf, math.nan])
def test_a_number_that_cannot_be_is_refused_in_one_sentence(wrong: float) -> None:
    asked: list[Callable[[], object]] = [
        lambda: spread_mm2(wrong, []),
        lambda: spread_mm2(0.84, [Lying(1100, wrong)]),
        lambda: spread_mm2(0.84, [Lying(20, wrong)]),
        lambda: skin_mm(wrong),
        lambda: skin_mm(0.1, wrong),
        lambda: thinned_mm2(wrong, 0.5),
        lambda: thinned_mm2(0.1, wrong),
        lambda: after_loss_mm(wrong, 0.1),
        lambda: after_loss_mm(0.6, wrong),
        lambda: carbon_profile(wrong, 0.1, [0.1]),
        lambda: carbon_profile(0.84, wrong, [0.1]),
        lambda: carbon_profile(0.84, 0.1, [wrong]),
        lambda: carbon_profile(0.84, 0, [wrong]),
        lambda: allowance_mm(wrong),
        lambda: allowance_mm(0.6, wrong),
        lambda: weld_bleed_mm(wrong),
        lambda: weld_bleed_mm(0.1, wrong),
    ]
    for ask in asked:
        with pytest.raises(NoSkin) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


@pytest.mark.parametrize("temperature_c", [-274, math.inf, -math.inf, math.nan])
def test_a_temperature_that_is_none_is_refused(temperature_c: float) -> None:
    with pytest.raises(NoSkin, match="temperature of the piece"):
        spread_mm2(0.84, [Lying(temperature_c, 3)])


@pytest.mark.parametrize("share", [0, 1, 90])
def test_a_share_of_nothing_all_or_per_cent_is_refused(share: float) -> None:
    with pytest.raises(NoSkin, match="between 0 and 1"):
        skin_mm(0.1, share)
    with pytest.raises(NoSkin, match="between 0 and 1"):
        weld_bleed_mm(0.1, share)


@pytest.mark.parametrize("carbon_share", [2.15, 84])
def test_more_carbon_than_steel_has_is_refused(carbon_share: float) -> None:
    with pytest.raises(NoSkin, match="in per cent"):
        spread_mm2(carbon_share, [Lying(20, 3)])


def test_a_section_forged_to_nothing_is_refused() -> None:
    with pytest.raises(NoSkin, match="ratio"):
        thinned_mm2(0.1, 0)
