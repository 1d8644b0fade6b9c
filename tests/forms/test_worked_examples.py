"""Stock reckoned in old handbooks, reckoned again with forms."""

from __future__ import annotations

import math

import pytest

from coach.forms import Form
from coach.forms.flat import Flat
from coach.forms.round import Round
from coach.forms.square import Square
from coach.forms.taper import Taper
from coach.forms.twisted_bar import TwistedBar
from tests.made import make

INCH = 25.4


def stock_length_mm(stock: Form, work: Form) -> float:
    """The length of bar that holds the metal of the work."""
    return stock.solved("length", work.volume_mm3()).length_mm


def test_a_square_bolt_head_takes_two_and_a_quarter_inches_of_bar() -> None:
    # "Shop Practice", vol. 1, Bolts (chestofbooks.com/crafts/machinery/Shop-Practice-V1/Bolts.html): head of
    # side 1.5d + 1/8 and half its side deep on 3/4 in bar, .9766 cu in; over .44 sq in it is 2.22 in, "about
    # 2¼". With the exact area of the bar: 2.2105 in.
    head = Square(1.25 * INCH, 0.625 * INCH)
    assert head.volume_mm3() / INCH**3 == pytest.approx(0.9766, abs=5e-5)
    assert head.volume_mm3() / INCH**3 / 0.44 == pytest.approx(2.22, abs=5e-3)
    assert stock_length_mm(Round(0.75 * INCH, 1), head) / INCH == pytest.approx(2.2105, abs=5e-5)


def test_a_weldless_ring_from_a_split_flat() -> None:
    # "Shop Practice", vol. 2, Weldless Rings: 4 in outside, 3 in inside, from a flat 1½ in wide and as thick
    # as the ring: 12.57 − 7.07 = 5.50 sq in, 3.66 in of bar; exactly 3.66519 in.
    ring = make("ring", {"outer_diameter": 4 * INCH, "inner_diameter": 3 * INCH, "thickness": 0.5 * INCH})
    assert ring.volume_mm3() / (0.5 * INCH) / INCH**2 == pytest.approx(5.50, abs=5e-3)
    length_in = stock_length_mm(Flat(1.5 * INCH, 0.5 * INCH, 1), ring) / INCH
    assert length_in == pytest.approx(3.66, abs=6e-3)
    assert length_in == pytest.approx(3.66519, abs=1e-4)


def test_a_welded_ring_of_inch_bar() -> None:
    # T. F. Googerty, Hand Forging, p. 69: (inside diameter + thickness)·3 1/7 = 34 4/7 in, and 3/8 in for the
    # weld. With π in place of 3 1/7: 34.5575, and 34.9325 in all.
    ring = make("round ring", {"inner_diameter": 10 * INCH, "diameter": INCH})
    length_in = stock_length_mm(Round(INCH, 1), ring) / INCH
    assert length_in == pytest.approx(34 + 4 / 7, rel=5e-4)  # 22/7 is 0.04 % above π
    assert length_in + 3 / 8 == pytest.approx(34.9325, abs=1e-4)
    assert ring.length_mm / INCH == pytest.approx(length_in)


def test_a_metric_ring_with_one_thickness_for_the_weld() -> None:
    # The same rule on 100 mm inside, 12 round, one thickness for the weld: 351.858 + 12, worked by hand.
    ring = make("round ring", {"inner_diameter": 100, "diameter": 12})
    assert ring.length_mm + 12 == pytest.approx(363.858, abs=1e-3)


def test_an_eye_is_bent_from_its_mean_circumference() -> None:
    # "Shop Practice", vol. 2, Ring and Eye Bending: 2 in mean diameter by 3 1/7 is 6 2/7 in; by π 6.2832.
    eye = make("round ring", {"inner_diameter": 1.5 * INCH, "diameter": 0.5 * INCH})
    assert eye.length_mm / INCH == pytest.approx(6.2832, abs=5e-5)
    assert eye.length_mm / INCH == pytest.approx(6 + 2 / 7, rel=5e-4)


def test_drawing_between_bosses_takes_stock_as_the_areas() -> None:
    # Cameron Knight, The Mechanician and Constructor (19th century), Plunger Joints: 12½ : 7 :: 20 : 11.2 in.
    drawn = Flat(3.5 * INCH, 2 * INCH, 20 * INCH)
    assert stock_length_mm(Flat(5 * INCH, 2.5 * INCH, 1), drawn) / INCH == pytest.approx(11.2, abs=1e-6)


def test_a_one_way_wedge_is_twice_as_long_as_its_stock() -> None:
    # Common practice, no source; exact by the prismatoid formula.
    assert stock_length_mm(Flat(20, 10, 1), Taper(20, 10, 20, 0, 100)) == pytest.approx(50)


def test_a_two_way_point_is_three_times_as_long_as_its_stock() -> None:
    # Common practice, no source; exact by the prismatoid formula.
    assert stock_length_mm(Square(20, 1), Taper(20, 20, 0, 0, 90)) == pytest.approx(30)


def test_a_truncated_square_point_takes_35_mm() -> None:
    # 20 to 5 over 80 from 20 square: 80/3·(400 + 100 + 25)/400, by hand.
    assert stock_length_mm(Square(20, 1), Taper(20, 20, 5, 5, 80)) == pytest.approx(35.0)


def test_squaring_a_round_bar_draws_it_by_four_over_pi() -> None:
    # Common practice, no source; the ratio of the areas.
    assert stock_length_mm(Square(20, 1), Round(20, 100)) == pytest.approx(100 * math.pi / 4)


def test_a_corner_of_a_twisted_bar_runs_along_a_helix() -> None:
    # By hand: three turns of 10 square in 150 mm; the corner lies 7.071 mm from the axis, so it goes
    # √(150² + (3·π·14.142)²) = 200.66 mm, and the way round its four corners is a third longer than the bar.
    twisted = TwistedBar(10, 10, 50, 150)
    assert twisted.turns == 3
    assert twisted.corner_mm == pytest.approx(200.66, rel=0.01)  # the section swells by 1.2 %


def test_a_lesson_in_twisting_comes_out_as_long_as_the_bar_that_was_heated_by_a_rule() -> None:
    # "Controlled Hand Forging", lesson 5, Twisting (confirmed): 3 in of 1/2 in square, between marks at 2 in
    # and 5 in, are twisted one and a half turns to a twist of 3 in.
    bar = Square(INCH / 2, 3 * INCH)
    twisted = TwistedBar(INCH / 2, INCH / 2, 2 * INCH, 1).solved("length", bar.volume_mm3())
    assert 0 < 3 * INCH - twisted.length_mm < INCH / 16
    # The bundle of fibres that it is a tenth of the way to: √(1 + π²·(2·0.25)/(3·4)) = 1.1879, by hand.
    assert 3 * INCH / twisted.length_mm == pytest.approx(1 + 0.1879 / 10, abs=1e-4)


def test_an_untwisted_bar_is_a_flat() -> None:
    assert TwistedBar(30, 8, 1e9, 100).volume_mm3() == pytest.approx(Flat(30, 8, 100).volume_mm3())


def test_metal_left_over_settles_the_length_still_to_come() -> None:
    # 60000 mm³ to be drawn to 40 × 8: 187.5 mm, by hand.
    assert Flat(40, 8, 1).solved("length", 60000).length_mm == pytest.approx(187.5)
