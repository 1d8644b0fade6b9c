"""Worked examples from books, put to the program as recipes and read off its plan."""

from __future__ import annotations

import math

import pytest

from coach.bench.planned import Planned, planned_tool
from coach.ledger.looking_back import look_back
from coach.operations.does import Cause
from tests.ledger.recipes import recipe

INCH = 25.4


def plan(text: str, units: str = "mm") -> Planned:
    """The plan of a recipe without fire scale, as the books reckon."""
    return planned_tool(look_back(recipe(f"title: Worked example\nunits: {units}\nscale: none\n{text}")))


def one_zone(stock: str, drawing: str, steps: str, units: str = "mm", metal: str = "mild steel") -> Planned:
    """The plan of a piece that is one zone."""
    return plan(
        f"""
pieces:
  bar: {{metal: {metal}, stock: {{{stock}}}}}
drawing:
  bar: {{{drawing}}}
steps:
{steps}
""",
        units,
    )


def bar_in(view: Planned) -> float:
    """The length of bar the plan asks for, in inches."""
    return view.pieces[0].length.value / INCH


def after(view: Planned, step: int, name: str) -> float:
    """A size that a step leaves, mm."""
    return next(size.size.value for size in view.steps[step - 1].after if size.name == name)


def test_a_square_bolt_head_is_upset_from_the_bar_length_of_the_book() -> None:
    view = one_zone(
        "form: round, diameter: 3/4",
        "form: flat, width: 1 1/4, thickness: 1 1/4, length: 5/8",
        "  - {do: upset, zone: bar, form: flat, to: {width: 1 1/4, thickness: 1 1/4}}",
        "in",
    )
    # "Shop Practice" vol. 1, Bolts: head 1 1/4 in square and 5/8 deep on a 3/4 in bar. 2.2105 in by the bar's
    # exact area; the book rounds that to .44 in² and prints 2.22.
    assert bar_in(view) == pytest.approx(2.2105, abs=5e-4)
    assert bar_in(view) == pytest.approx(2.22, abs=0.01)


def test_a_weldless_ring_takes_the_length_of_flat_of_the_book() -> None:
    view = one_zone(
        "form: flat, width: 1 1/2, thickness: 1/2",
        "form: ring, outer diameter: 4, inner diameter: 3, thickness: 1/2",
        "  - {do: bend, zone: bar, form: ring, to: {inner diameter: 3, thickness: 1/2}}",
        "in",
    )
    # "Shop Practice" vol. 2, Weldless Rings: 4 in outside, 3 in inside, from flat 1 1/2 in wide: 3.66 in.
    assert bar_in(view) == pytest.approx(3.66519, abs=1e-4)
    # The same page cuts it at 3 11/16 for scale: 0.61 % more.
    assert 3.6875 / bar_in(view) - 1.0 == pytest.approx(0.0061, abs=2e-4)


def test_a_welded_ring_is_its_mean_circumference_and_the_weld() -> None:
    view = one_zone(
        "form: round, diameter: 1",
        "form: round ring, inner diameter: 10, diameter: 1",
        "  - {do: bend, zone: bar, form: round ring, to: {diameter: 1}, loses: 3/8 in}",
        "in",
    )
    # T. F. Googerty, Hand Forging, p. 69: 1 in bar, 10 in inside, (10 + 1)·3 1/7 + 3/8; with π 34.9325 in.
    assert bar_in(view) == pytest.approx(34.9325, abs=1e-3)
    assert bar_in(view) == pytest.approx(34.9464, abs=0.02)  # the book's, by 22/7


def test_a_metric_ring_with_a_weld_allowance_of_its_own_thickness() -> None:
    view = one_zone(
        "form: round, diameter: 12",
        "form: round ring, inner diameter: 100, diameter: 12",
        "  - {do: bend, zone: bar, form: round ring, to: {diameter: 12}, loses: 12 mm}",
    )
    # Derived: π·(100 + 12) + 12 = 363.858 mm; the rule is Googerty's, as above.
    assert view.pieces[0].length.value == pytest.approx(363.858, abs=1e-3)


def test_an_eye_takes_its_mean_circumference() -> None:
    view = one_zone(
        "form: round, diameter: 1/2",
        "form: round ring, inner diameter: 1 1/2, diameter: 1/2",
        "  - {do: bend, zone: bar, form: round ring, to: {diameter: 1/2}}",
        "in",
    )
    # "Shop Practice" vol. 2, Ring and Eye Bending: mean diameter 2 in: 2 × 3 1/7 = 6 2/7; with π 6.2832.
    assert bar_in(view) == pytest.approx(6.2832, abs=1e-4)


def test_drawing_between_bosses_goes_by_the_inverse_of_the_areas() -> None:
    view = one_zone(
        "form: flat, width: 12 1/2, thickness: 1",
        "form: flat, width: 7, thickness: 1, length: 20",
        "  - {do: draw, zone: bar, to: {width: 7, thickness: 1}}",
        "in",
    )
    # Cameron Knight, The Mechanician (19th century), Plunger Joints: 12 1/2 : 7 :: 20 : 11.2.
    assert bar_in(view) == pytest.approx(11.2, abs=1e-6)


@pytest.mark.parametrize(
    ("end_width", "times"),
    [
        ("30", 2.0),  # a one-way wedge is twice as long as its stock (common practice, no source)
        ("0.001", 3.0),  # a two-way point three times (common practice, no source)
    ],
)
def test_a_taper_to_nothing_is_as_many_times_longer_as_smiths_say(end_width: str, times: float) -> None:
    view = one_zone(
        "form: flat, width: 30, thickness: 10",
        f"form: taper, width: 30, thickness: 10, end width: {end_width}, end thickness: 0.001, length: 120",
        "  - {do: taper, zone: bar, to: drawing}",
    )
    assert 120.0 / view.pieces[0].length.value == pytest.approx(times, rel=1e-3)


def test_square_drawn_to_round_of_its_own_width_grows_by_four_over_pi() -> None:
    view = one_zone(
        "form: square, side: 25",
        "form: round, diameter: 25, length: 127.32",
        "  - {do: draw, zone: bar, form: round, to: {diameter: 25}}",
    )
    # Elementary geometry: 4/π = 1.2732.
    assert 127.32 / view.pieces[0].length.value == pytest.approx(1.2732, abs=5e-5)


def test_square_drawn_to_octagon_of_its_own_width_grows_by_its_corners() -> None:
    view = one_zone(
        "form: square, side: 25",
        "form: octagon, across flats: 25, length: 120.71",
        "  - {do: draw, zone: bar, form: octagon, to: {across flats: 25}}",
    )
    # Elementary geometry: the area is 2(√2 − 1)·a² = 0.828427·a², so the length grows by 1.2071.
    assert 120.71 / view.pieces[0].length.value == pytest.approx(1.2071, abs=5e-5)


def test_a_taper_holds_the_volume_of_the_prismatoid_formula_not_of_the_mean_of_its_ends() -> None:
    view = one_zone(
        "form: flat, width: 30, thickness: 10",
        "form: taper, width: 30, thickness: 10, end width: 50, end thickness: 3, length: 80",
        "  - {do: taper, zone: bar, to: drawing}",
    )
    # Prismatoid, 80/6·(300 + 4·260 + 150), checked by quadrature: 19866.667 mm³. The mean of the end areas
    # would give 18000.
    assert view.pieces[0].zones[0].volume.value == pytest.approx(19866.667, abs=1e-3)


@pytest.mark.parametrize(
    ("stock", "drawing", "volume_mm3"),
    [
        # Frustum of a cone, πL/12·(D² + Dd + d²), and of a pyramid, L/3·(a² + ab + b²): elementary geometry.
        (
            "form: round, diameter: 20",
            "form: round taper, diameter: 20, end diameter: 12, length: 50",
            10262.54,
        ),
        (
            "form: square, side: 20",
            "form: taper, width: 20, thickness: 20, end width: 8, end thickness: 8, length: 60",
            12480.0,
        ),
    ],
)
def test_points_and_drifts_hold_their_frustums(stock: str, drawing: str, volume_mm3: float) -> None:
    kind = drawing.split(",", maxsplit=1)[0].removeprefix("form: ")
    view = one_zone(stock, drawing, f"  - {{do: taper, zone: bar, form: {kind}, to: drawing}}")
    assert view.pieces[0].zones[0].volume.value == pytest.approx(volume_mm3, abs=0.01)


def test_a_truncated_square_point_takes_35_mm_of_its_bar() -> None:
    view = one_zone(
        "form: square, side: 20",
        "form: taper, width: 20, thickness: 20, end width: 5, end thickness: 5, length: 80",
        "  - {do: taper, zone: bar, to: drawing}",
    )
    # Derived from the frustum of a pyramid: 80/3·(400 + 100 + 25)/400 = 35.0 mm.
    assert view.pieces[0].length.value == pytest.approx(35.0, abs=1e-6)


def test_an_upset_takes_the_hot_length_that_its_volume_needs() -> None:
    view = one_zone(
        "form: round, diameter: 20",
        "form: round, diameter: 30, length: 26.667",
        "  - {do: upset, zone: bar, to: {diameter: 30}}",
    )
    # 3 d of 20 mm round upset to 1.5 d stands 60/2.25 = 26.667 mm high (the three rules of upsetting,
    # Forging Industry Association, design rules for upset forgings).
    assert view.pieces[0].length.value == pytest.approx(60.0, abs=2e-3)


#: Nominal masses of EN 10058, 10059 and 10060 bars at 7.85 g/cm³ (from memory), kg per metre.
MASSES = [
    ("form: round, diameter: 10", 0.617),
    ("form: round, diameter: 16", 1.578),
    ("form: round, diameter: 25", 3.853),
    ("form: round, diameter: 50", 15.413),
    ("form: square, side: 12", 1.130),
    ("form: square, side: 20", 3.140),
    ("form: square, side: 40", 12.560),
    ("form: octagon, across flats: 16", 1.665),
    ("form: octagon, across flats: 30", 5.853),
    ("form: hexagon, across flats: 17", 1.965),  # EN 10061 (from memory)
    ("form: hexagon, across flats: 30", 6.118),
    ("form: flat, width: 20, thickness: 5", 0.785),
    ("form: flat, width: 40, thickness: 10", 3.140),
    ("form: flat, width: 60, thickness: 12", 5.652),
    ("form: flat, width: 80, thickness: 10", 6.280),
]


@pytest.mark.parametrize(("bar", "kg_per_m"), MASSES)
def test_a_metre_of_bar_weighs_what_the_standard_prints(bar: str, kg_per_m: float) -> None:
    view = one_zone(bar, f"{bar}, length: 1000", "  - {do: mark out, piece: bar}")
    # The table is rounded to 0.001 kg/m.
    assert view.pieces[0].mass.value / 1000.0 == pytest.approx(kg_per_m, rel=5e-4, abs=5e-4)


def test_a_yard_of_inch_square_wrought_iron_weighs_ten_pounds() -> None:
    view = one_zone(
        "form: square, side: 1",
        "form: square, side: 1, length: 36",
        "  - {do: mark out, piece: bar}",
        "in",
        "wrought iron",
    )
    # "Area in square inches times ten is pounds to the yard" (Builder and Mechanic, weight of castings).
    # The grade's 7.70 g/cm³ and the rule's 7.689 differ by 0.15 %.
    assert view.pieces[0].mass.value / 453.59237 == pytest.approx(10.0, rel=2e-3)


def test_a_hand_saw_takes_eleven_and_a_half_grams_of_25_mm_round() -> None:
    view = one_zone(
        "form: round, diameter: 25",
        "form: round, diameter: 25, length: 100",
        "  - {do: cut, zone: bar, to: {length: 100}, heat: cold, kerf: 3 mm}",
    )
    taken = {one.cause: one.volume.value for one in view.steps[0].taken}
    # Derived: π/4·25²·3 mm³ at 7.85 g/cm³ = 11.56 g.
    assert taken[Cause.KERF] * 7.85e-3 == pytest.approx(11.56, abs=5e-3)
    assert view.pieces[0].length.value == pytest.approx(103.0, abs=1e-6)


EYE = """
  - do: punch
    zone: bar
    hole: slot
    to: {hole length: 30, hole width: 10, thickness: 38, length: 40}
    slug: 6 mm
  - {do: drift, zone: bar, to: drawing}
"""


def eye() -> Planned:
    """38 mm square, 40 mm of it, punched 30 × 10 and drifted to an ellipse of 32 × 20."""
    return one_zone(
        "form: square, side: 38",
        "form: eyed, hole: oval, thickness: 38, length: 40, width: 49.47, hole length: 32, hole width: 20",
        EYE,
    )


def test_the_slug_is_the_punch_s_face_times_the_slug_s_thickness() -> None:
    taken = {one.cause: one.volume.value for one in eye().steps[0].taken}
    # Derived: a stadium of 30 × 10 has 278.54 mm², times 6 mm = 1671.2 mm³ = 13.1 g.
    assert taken[Cause.SLUG] == pytest.approx(1671.2, abs=0.05)
    assert taken[Cause.SLUG] * 7.85e-3 == pytest.approx(13.1, abs=0.05)


def test_an_eye_s_block_swells_to_the_width_that_its_metal_makes() -> None:
    view = eye()
    # Derived: (38·38·40 − 1671.2)/38 + π·16·10 = 1978.7 mm² over 40 mm: 49.47 mm wide, cheeks 14.73 mm.
    assert view.pieces[0].length.value == pytest.approx(40.0, abs=0.01)
    width, hole = after(view, 2, "bar.width"), after(view, 2, "bar.hole_width")
    assert (width - hole) / 2.0 == pytest.approx(14.73, abs=0.01)


def test_losses_compound_and_do_not_add() -> None:
    one_percent = "  - {do: straighten, zone: bar, loses: 1 %}\n"
    two_percent = "  - {do: straighten, zone: bar, loses: 2 %}\n"
    view = one_zone(
        "form: square, side: 25",
        "form: square, side: 25, length: 200",
        one_percent * 8 + two_percent * 2,
    )
    lost = 1.0 - 25.0 * 25.0 * 200.0 / view.pieces[0].zones[0].volume.value
    # 1 − 0.99⁸·0.98² = 11.3796 %, not 12 %.
    assert lost == pytest.approx(0.113796, abs=1e-6)


def test_a_composite_head_weighs_each_metal_at_its_own_density() -> None:
    view = plan(
        """
pieces:
  body: {metal: wrought iron, stock: {form: square, side: 40}}
  bit: {metal: C80, stock: {form: flat, width: 40, thickness: 10}}
drawing:
  body: {form: square, side: 40, length: 50}
  bit: {form: flat, width: 40, thickness: 10, length: 25}
steps:
  - {do: weld, zone: body, lay: bit, to: {side: 40}, heats: 2, squeeze: 0 %}
"""
    )
    # Derived: 70 cm³ of wrought iron at 7.70 and 10 cm³ of steel at 7.85 g/cm³ are 617.5 g; with the iron at
    # the handbooks' 480 lb/ft³ (7.689 g/cm³) they are 616.7 g.
    assert view.finished_mass.value == pytest.approx(617.5, abs=0.1)
    assert view.finished_mass.value == pytest.approx(616.7, rel=2e-3)


def test_a_bend_s_length_is_its_straights_and_its_arc_at_mid_thickness() -> None:
    straight, arc = 80.0 + 40.0, math.pi / 2.0 * 15.0
    view = one_zone(
        "form: flat, width: 30, thickness: 10",
        f"form: flat, width: 30, thickness: 10, length: {straight + arc:.3f}",
        "  - {do: bend, zone: bar, to: {angle: 90, radius: 10}}",
    )
    # Legs 100 and 60 outside, 10 thick, bent over 10 mm: 143.562 mm of bar, and bending moves none of it.
    assert view.pieces[0].length.value == pytest.approx(143.562, abs=1e-3)
