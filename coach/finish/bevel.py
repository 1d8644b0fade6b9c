"""How a bar curves and widens while one of its edges is forged thin.

A bar of width b and thickness t has a bevel of width w that thins it from t at the bevel's root to e at the
edge; R is the radius of the back, the bevel lying on the outside of the curve. No measured bevel was found
in print, so the figures are computed here, not confirmed: two models of them bracket the truth within about a
factor of two, until a bevel heat has been measured and `calibrated`.
"""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from coach.quantities.checks import check_share, check_size, finite
from coach.quantities.figure import COVERAGE, Figure, Kind, Span, mm
from coach.quantities.refusal import OutOfRange

#: Judgement: the share of the displaced metal that goes into the length, until it has been measured.
USUAL_SHARE: Final = 0.5

#: Judgement: how many times more sharply a bar curves than the first model says, until it has been measured.
USUAL_FACTOR: Final = 1.3

#: Judgement: before a bevel is measured its curvature is known to no better than this factor, end to end.
LEAST_SPAN: Final = 2.0

#: Judgement: an edge thinned by less than this share of the bar is no bevel that could be measured.
LEAST_THINNED_SHARE: Final = 1e-3


class BarToBevel(NamedTuple):
    """A straight bar and the bevel to be forged on it, in mm."""

    width_mm: float
    thickness_mm: float
    edge_mm: float  # as thick as the bevel leaves its edge, 0 or more and less than the bar
    bevel_mm: float  # how far the bevel reaches from the edge, at most the whole width

    @property
    def flat_mm(self) -> float:
        """What is left flat beside the bevel."""
        return self.width_mm - self.bevel_mm

    @property
    def displaced_mm2(self) -> float:
        """What the bevel takes out of the cross-section: ΔA = w(t-e)/2."""
        return self.bevel_mm * (self.thickness_mm - self.edge_mm) / 2.0

    @property
    def most_widening_mm(self) -> float:
        """How much wider the bar gets when no metal goes lengthwise: w(t-e)/(t+e)."""
        return self.bevel_mm * (self.thickness_mm - self.edge_mm) / (self.thickness_mm + self.edge_mm)


class ForgedBevel(NamedTuple):
    """What forging a bevel does to a straight bar, by the first model."""

    widening_mm: float
    radius_mm: float  # of the back, when the bar was straight before
    pre_curve_mm: float  # radius of the back, bent the other way before, that ends straight
    edge_growth: float  # length of the edge, times what it was


class BevelRange(NamedTuple):
    """Where the radius and the pre-curve that ends straight lie, each as doubtful as its ends lie apart."""

    radius: Figure  # what its back is likely to curve to
    tightest: Figure  # the tightest it may curve to
    widest: Figure  # the widest, by the plain model
    pre_curve: Figure  # the radius of the back, bent the other way beforehand, that is likely to end straight
    pre_curve_tightest: Figure | None  # None where it is tighter than the bar can be bent
    pre_curve_widest: Figure  # the widest


class Calibrated(NamedTuple):
    """What one measured bevel heat says of this bar under this hammer."""

    share: float  # of the displaced metal that goes into the length
    factor: float  # curvature measured over the first model's, β


class Predicted(NamedTuple):
    """What a measured heat lets expect of a further bevel, in mm."""

    width_mm: float
    radius_mm: float
    pre_curve_mm: float


def bevel(bar: BarToBevel, share: float = USUAL_SHARE) -> ForgedBevel:
    """The curve and the widening of a bar b × t whose bevel w is forged down to an edge e.

    Plane sections stay plane, the back keeps its length, volume is kept and the bevel stays straight; a
    share η of ΔA = w(t-e)/2 leaves the section lengthwise and the rest widens the bevel:
    Δb = (1-η) w (t-e)/(t+e); w' = w + Δb; A_f = A₀ - ηΔA with A₀ = bt;
    S = t(b-w)²/2 + (b-w) w' (t+e)/2 + w'²(t+2e)/6; R = S/(ηΔA); pre-curve R_p = b A₀/(2ηΔA);
    the edge grows to 1 + (b+Δb)/R.
    0 ≤ e < t; 0 < w ≤ b; 0 < η ≤ 1. Raises OutOfRange elsewhere, and where R_p is not above b: no bar can
    be bent so tightly.
    Derived here (computed); the pre-curved volume equals the straight one, but no measured bevel confirms it.

    >>> made = bevel(BarToBevel(40, 6, 1, 20), 0.5)
    >>> round(made.widening_mm, 4), round(made.radius_mm, 3), round(made.pre_curve_mm, 3)
    (7.1429, 163.293, 192.0)
    """
    _check(bar, share)
    width_mm, thickness_mm, edge_mm, bevel_mm = bar
    widening_mm = (1.0 - share) * bar.most_widening_mm
    wide_mm = bevel_mm + widening_mm
    moment_mm3 = (
        thickness_mm * bar.flat_mm**2 / 2.0
        + bar.flat_mm * wide_mm * (thickness_mm + edge_mm) / 2.0
        + wide_mm**2 * (thickness_mm + 2.0 * edge_mm) / 6.0
    )
    spare_mm2 = share * bar.displaced_mm2
    radius_mm = finite(moment_mm3 / spare_mm2, "radius")
    pre_curve_mm = finite(width_mm**2 * thickness_mm / (2.0 * spare_mm2), "pre-curve")
    _check_bends(pre_curve_mm, width_mm)
    edge_growth = 1.0 + (width_mm + widening_mm) / radius_mm
    return ForgedBevel(widening_mm, radius_mm, pre_curve_mm, edge_growth)


def second_radius_mm(bar: BarToBevel, share: float = USUAL_SHARE) -> float:
    """The radius of the back, in mm, when the cold thin bevel may squeeze the back shorter.

    The misfit strain ε* = η ln(t/h) of a strip h thick is taken up by the linear strain ε₀ + κy that makes
    ∫ h (ε* - ε₀ - κy)² dy least (no force, no moment): κ = 1/R, integrated exactly over the bar as it was.
    For little thinning it nears R₁/(3 - 2w/b), `bevel` giving R₁. Errors as for `bevel`.
    Derived here (computed); it stands beside the first model to show how far the two differ.

    >>> round(second_radius_mm(BarToBevel(40, 6, 1, 20), 0.5), 1)
    80.0
    """
    _check(bar, share)
    # In units of t and w: u = h/t from e/t to 1, and x = y/w from the root of the bevel to the edge.
    thin = bar.edge_mm / bar.thickness_mm
    thinning = 1.0 - thin
    flat = bar.flat_mm / bar.bevel_mm
    log = math.log(1.0 / thin) if thin > 0.0 else 0.0  # thin² log goes to 0 with thin
    first = (1.0 - thin**2) / 4.0 - thin**2 * log / 2.0  # ∫ u ln(1/u) du
    second = (1.0 - thin**3) / 9.0 - thin**3 * log / 3.0  # ∫ u² ln(1/u) du
    strain = share * first / thinning
    strain_moment = share * (first - second) / thinning**2
    weight = flat + (1.0 + thin) / 2.0
    moment = -(flat**2) / 2.0 + 1.0 / 2.0 - thinning / 3.0
    inertia = flat**3 / 3.0 + 1.0 / 3.0 - thinning / 4.0
    curvature = (weight * strain_moment - moment * strain) / (weight * inertia - moment**2)
    return finite(bar.bevel_mm / curvature, "radius")


def bevel_range(bar: BarToBevel, share: float = USUAL_SHARE) -> BevelRange:
    """Between which radii the bar will lie, in mm, and how far to pre-curve it, before it was ever measured.

    From the least to the greatest of R₁ (`bevel`), R₁/(3 - 2w/b) and R₂ (`second_radius_mm`), and opened to
    a factor LEAST_SPAN about their geometric mean where they happen to agree; the likely radius is R₁/β
    with β = USUAL_FACTOR. Each pre-curve is R_p R/R₁. Errors as for `bevel`; a likely pre-curve that
    is not above the width is refused too.
    Derived here; β and the least span are judgement. Measure the first bevel heat and use `calibrated`.

    >>> ahead = bevel_range(BarToBevel(40, 6, 1, 20), 0.5)
    >>> [round(radius.value) for radius in ahead[:4]]
    [126, 80, 163, 148]
    """
    first = bevel(bar, share)
    likely_mm = first.radius_mm / USUAL_FACTOR
    radii_mm = (
        first.radius_mm,
        first.radius_mm / (3.0 - 2.0 * bar.bevel_mm / bar.width_mm),
        second_radius_mm(bar, share),
    )
    middle_mm = math.sqrt(min(radii_mm) * max(radii_mm))
    tightest_mm = min(*radii_mm, middle_mm / math.sqrt(LEAST_SPAN), likely_mm)
    widest_mm = max(*radii_mm, middle_mm * math.sqrt(LEAST_SPAN), likely_mm)
    bends = first.pre_curve_mm / first.radius_mm
    likely_bend_mm, tightest_bend_mm, widest_bend_mm = (
        bends * radius_mm for radius_mm in (likely_mm, tightest_mm, widest_mm)
    )
    _check_bends(likely_bend_mm, bar.width_mm)
    reachable = tightest_bend_mm > bar.width_mm
    doubt = (widest_mm - tightest_mm) / 2.0 / COVERAGE
    bend_doubt = (widest_bend_mm - likely_bend_mm) / COVERAGE
    if reachable:
        bend_doubt = (widest_bend_mm - tightest_bend_mm) / 2.0 / COVERAGE
    return BevelRange(
        mm(likely_mm, doubt),
        mm(tightest_mm, doubt),
        mm(widest_mm, doubt),
        mm(likely_bend_mm, bend_doubt),
        mm(tightest_bend_mm, bend_doubt) if reachable else None,
        mm(widest_bend_mm, bend_doubt),
    )


def radius_from_sagitta_mm(chord_mm: float, sagitta_mm: float) -> float:
    """The radius of a curve, in mm, from how far its middle stands off a straight-edge of a known length.

    R = (c²/4 + s²)/(2s), c the chord and s the sagitta, both in mm. Lay the straight-edge in the hollow of
    the back. Raises OutOfRange for a sagitta of more than half the chord, which no straight-edge shows.
    Elementary geometry.

    >>> radius_from_sagitta_mm(100, 10)
    130.0
    """
    check_size(chord_mm, "chord")
    check_size(sagitta_mm, "sagitta")
    if sagitta_mm > chord_mm / 2.0:
        raise OutOfRange(
            "A sagitta of {} over a chord of {} is more than half a circle; measure it over a shorter chord.",
            mm(sagitta_mm),
            mm(chord_mm),
        )
    return finite((chord_mm**2 / 4.0 + sagitta_mm**2) / (2.0 * sagitta_mm), "radius")


def share_from_width(bar: BarToBevel, width_after_mm: float) -> float:
    """The share of the displaced metal that went into the length, from the width measured after a heat.

    η = 1 - Δb (t+e)/(w(t-e)), Δb being the widening; the definition of the share in `bevel`. The bevel's
    width w is reckoned on the bar as it was: its width less the flat that is left beside the bevel. Raises
    OutOfRange when the width says a share outside 0 to 1.

    >>> round(share_from_width(BarToBevel(40, 6, 1, 20), 47.142857), 6)
    0.5
    """
    _check(bar)
    check_size(width_after_mm, "width after the heat")
    share = 1.0 - (width_after_mm - bar.width_mm) / bar.most_widening_mm
    if not 0.0 < share <= 1.0:
        raise OutOfRange(
            "A width gone from {} does not fit this bevel, which widens the bar by 0 to {}; measure "
            "width, root and edge again.",
            Span(bar.width_mm, width_after_mm, Kind.LENGTH),
            mm(bar.most_widening_mm),
        )
    return share


def share_from_radius(bar: BarToBevel, radius_mm: float) -> float:
    """The share that lets the first model give the radius measured at the back, in mm, all that is known.

    The root of R(η) in `bevel`, a quadratic in η. Raises OutOfRange for a radius below that of η = 1.

    >>> round(share_from_radius(BarToBevel(40, 6, 3, 20), 200), 5)
    0.69277
    """
    check_size(radius_mm, "radius measured")
    least_mm = bevel(bar, 1.0).radius_mm
    if radius_mm < least_mm * (1.0 - 1e-12):
        raise OutOfRange(
            "The bar curves to {}, more sharply than {}, the most that metal going lengthwise explains; "
            "measure its width as well and calibrate with both.",
            mm(radius_mm),
            mm(least_mm),
        )
    most_mm, flat_mm = bar.most_widening_mm, bar.flat_mm
    mean_mm2 = flat_mm * (bar.thickness_mm + bar.edge_mm) / 2.0
    edgewise_mm = (bar.thickness_mm + 2.0 * bar.edge_mm) / 6.0
    widest_mm = bar.bevel_mm + most_mm
    square = edgewise_mm * most_mm**2
    linear = most_mm * (mean_mm2 + 2.0 * edgewise_mm * widest_mm) + bar.displaced_mm2 * radius_mm
    constant = bar.thickness_mm * flat_mm**2 / 2.0 + mean_mm2 * widest_mm + edgewise_mm * widest_mm**2
    # The smaller root, in the form that loses no digits when the radius is large.
    root = math.sqrt(max(linear**2 - 4.0 * square * constant, 0.0))
    return min(finite(2.0 * constant / (linear + root), "share"), 1.0)


def calibrated(bar: BarToBevel, *, width_after_mm: float | None, radius_mm: float) -> Calibrated:
    """What the first bevel heat, measured in width and curve, says of the heats to come.

    The edge is as thick as that heat left it, the other sizes are the bar before. The width gives the
    share η (`share_from_width`); the radius of the back, in mm (`radius_from_sagitta_mm`), gives β = κ/κ₁,
    the curvature measured over the first model's. Without a width all of the difference is taken to lie in
    the share (`share_from_radius`). Raises OutOfRange as those do.

    >>> learned = calibrated(BarToBevel(40, 6, 3, 20), width_after_mm=43.333333, radius_mm=200)
    >>> round(learned.share, 4), round(learned.factor, 4)
    (0.5, 1.463)
    """
    if width_after_mm is None:
        return Calibrated(share_from_radius(bar, radius_mm), 1.0)
    share = share_from_width(bar, width_after_mm)
    check_size(radius_mm, "radius measured")
    first = bevel(bar, share)
    return Calibrated(share, finite(first.radius_mm / radius_mm, "factor"))


def predicted(learned: Calibrated, bar: BarToBevel) -> Predicted:
    """What a further bevel will do to a bar, in mm, by what was learned of it: radius R₁/β, pre-curve R_p/β.

    The bar is as it was before any bevel, and the edge is the one now aimed at. Raises OutOfRange as
    `bevel` does, and for a pre-curve that is not above the width.

    >>> next_step = predicted(Calibrated(0.5, 1.463), BarToBevel(40, 6, 1, 20))
    >>> round(next_step.radius_mm, 1), round(next_step.pre_curve_mm, 1)
    (111.6, 131.2)
    """
    first = bevel(bar, learned.share)
    factor = finite(learned.factor, "factor")
    if not factor > 0.0:
        raise OutOfRange(f"The measured curvature is more than 0 times the reckoned one, not {factor:g}.")
    _check_bends(first.pre_curve_mm / factor, bar.width_mm)
    return Predicted(bar.width_mm + first.widening_mm, first.radius_mm / factor, first.pre_curve_mm / factor)


def _check(bar: BarToBevel, share: float = 1.0) -> None:
    width_mm, thickness_mm, edge_mm, bevel_mm = bar
    check_size(width_mm, "width")
    check_size(thickness_mm, "thickness")
    check_size(edge_mm, "thickness of the edge", may_be_nothing=True)
    check_size(bevel_mm, "width of the bevel")
    check_share(share, "share that goes into the length")
    if bevel_mm > width_mm:
        raise OutOfRange(
            "A bevel {} wide does not fit on a bar {} wide; give one no wider than the bar.",
            mm(bevel_mm),
            mm(width_mm),
        )
    if edge_mm > thickness_mm * (1.0 - LEAST_THINNED_SHARE):
        raise OutOfRange(
            "An edge of {} on a bar {} thick is no bevel; give the edge thinner than the bar.",
            mm(edge_mm),
            mm(thickness_mm),
        )


def _check_bends(pre_curve_mm: float, width_mm: float) -> None:
    if not pre_curve_mm > width_mm:
        raise OutOfRange(
            "The bar would have to be bent beforehand to {}, which is not above its width of {} and "
            "cannot be done; bevel it in steps and straighten between them.",
            mm(pre_curve_mm),
            mm(width_mm),
        )
