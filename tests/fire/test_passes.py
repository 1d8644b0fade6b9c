"""Tests of how a bar is drawn from one section to another."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coach.fire.how_to_draw import cautions, how_to
from coach.fire.passes import (
    FINISHED_SHARE,
    GREATEST_SQUEEZE,
    STANDS_TO,
    Drawing,
    Rectangle,
    draw,
    quarter_turns,
)
from coach.fire.spreading import spread_coefficient
from coach.quantities.refusal import OutOfRange
from coach.telling.words import write
from coach.telling.writing import METRIC, Shown

sides_mm = st.floats(min_value=4, max_value=80)
bites_mm = st.floats(min_value=3, max_value=60)
shares = st.floats(min_value=0.15, max_value=1.0)


def drawn(
    start: tuple[float, float],
    target: tuple[float, float],
    bite_mm: float = 15,
    length_mm: float = 100,
    coefficient: float | None = None,
) -> Drawing:
    return draw(Rectangle(*start), Rectangle(*target), bite_mm, length_mm=length_mm, coefficient=coefficient)


def told(drawing: Drawing, shown: Shown = METRIC) -> tuple[str, ...]:
    return tuple(write(one, shown) for one in how_to(drawing))


def sentences(drawing: Drawing) -> str:
    return " ".join((*told(drawing), *(write(one.sentence) for one in cautions(drawing))))


# ── by published figures ─────────────────────────────────────────────────────────────────────────


def test_the_first_pass_spreads_and_grows_as_published() -> None:
    # Tomlinson and Stringer (from memory): 25 mm square, bite 15, to 20 mm: 26.950 wide, 15 becomes 17.393.
    done = drawn((25, 25), (20, 20))
    first = done.passes[0]
    assert (first.side, first.size.value, first.new_size.value) == ("height", 25, 20)
    assert first.new_across.value == pytest.approx(26.950, abs=1e-3)
    assert 15 * done.lengths_mm[1] / done.lengths_mm[0] == pytest.approx(17.393, abs=1e-3)


def test_the_excess_dies_away_turn_by_turn() -> None:
    # ln excess: 0.223, 0.074, 0.024, 0.008 at s = 0.33, so that 25 % is under 1 % after three passes (from
    # the law, worked apart from the program); the next would be 0.0026.
    passes = drawn((20, 25), (20, 20), coefficient=0.33).passes
    excess = [math.log(one.size.value / 20) for one in passes]
    excess.append(math.log(passes[-1].new_across.value / 20))
    assert excess == pytest.approx([0.223, 0.074, 0.024, 0.008], abs=5.1e-4)
    assert 0.33 * excess[-1] == pytest.approx(0.0026, abs=5.1e-5)
    assert [one.side for one in passes] == ["height", "width", "height"]


def test_a_bar_grows_as_its_section_shrinks_whatever_the_spread() -> None:
    # 25 to 20 mm square: 1.5625 times as long, A0/A1.
    for coefficient in (0.0, 0.2, 0.5):
        done = drawn((25, 25), (20, 20), coefficient=coefficient)
        assert done.lengths_mm[-1] == pytest.approx(156.25, rel=1.2 * FINISHED_SHARE)


# ── what is told ─────────────────────────────────────────────────────────────────────────────────


def test_a_square_is_told_in_turns_bites_and_length() -> None:
    assert told(drawn((20, 25), (20, 20), coefficient=0.33)) == (
        "Turn a quarter after each pass: 3 passes bring it to 20 mm × 20 mm within 1 %.",
        "Bite about 15 mm at a time, 24 bites in all, a blow or more to each; 100 mm of bar come to 124 mm.",
        "Do not let it stand taller than 1.5 times its width: it bends and folds.",
    )


def test_sizes_are_told_as_the_smith_reads_them() -> None:
    lines = told(drawn((20, 25), (20, 20)), Shown("in"))
    # 20 mm are 25.2/32 in.
    assert "25/32 in × 25/32 in" in lines[0]
    assert "mm" not in " ".join(lines)


def test_bites_cover_the_length_at_every_pass() -> None:
    done = drawn((20, 25), (20, 20), bite_mm=10, length_mm=95)
    assert done.passes[0].bites == 10
    assert done.bites == sum(math.ceil(length_mm / 10 - 1e-6) for length_mm in done.lengths_mm[:-1])
    assert drawn((20, 25), (20, 20), bite_mm=10, length_mm=100).passes[0].bites == 10


def test_a_bar_at_its_size_needs_nothing() -> None:
    done = drawn((25, 25), (25, 25))
    assert (done.passes, done.bites, quarter_turns(done.passes), cautions(done)) == ((), 0, 0, ())
    assert told(done) == ("It is at 25 mm × 25 mm within 1 % already.",)


def test_a_flat_is_squared_first_and_laid_flat_once() -> None:
    done = drawn((25, 25), (30, 10), bite_mm=12)
    assert done.before_flat is not None
    last = done.passes[done.before_flat :]
    assert {one.side for one in last} == {"height"}
    assert done.end.width_mm == pytest.approx(30, rel=2 * FINISHED_SHARE)
    assert all(one.stands <= STANDS_TO for one in done.passes)
    assert "Then lay it flat and bring it down to 10 mm in 4 passes; it spreads to 30.2 mm." in told(done)
    assert cautions(done) == ()


def test_a_flat_that_spreads_no_more_than_wanted_is_laid_flat_at_once() -> None:
    done = drawn((25, 25), (36, 8))
    assert done.before_flat == 0
    assert told(done)[0].startswith("Lay it flat and bring it down to 8 mm")


def test_it_does_not_matter_which_side_is_called_the_height() -> None:
    lying, upright = drawn((40, 12), (30, 8)), drawn((12, 40), (8, 30))
    assert tuple(upright.end) == pytest.approx((lying.end.height_mm, lying.end.width_mm))
    assert [one.new_size.value for one in upright.passes] == pytest.approx(
        [one.new_size.value for one in lying.passes]
    )


# ── what may go wrong ────────────────────────────────────────────────────────────────────────────


def test_a_section_that_stands_tall_is_warned_of() -> None:
    tall = cautions(drawn((20, 35), (15, 15), bite_mm=12))
    assert [(one.stop, "1.8 times its width" in write(one.sentence)) for one in tall] == [(False, True)]
    assert "straighten it often" in write(tall[0].sentence)


def test_a_section_that_would_fold_had_better_not_be_begun() -> None:
    worst = cautions(drawn((10, 40), (15, 15), bite_mm=15))[0]
    assert worst.stop
    assert "4.0 times its width" in write(worst.sentence)


def test_a_bite_that_works_only_the_skin_is_warned_of() -> None:
    found = cautions(drawn((30, 30), (25, 25), bite_mm=8))
    assert [one.stop for one in found] == [False]
    assert "only the skin is worked" in write(found[0].sentence)
    assert cautions(drawn((30, 30), (25, 25), bite_mm=12)) == ()


def test_a_bite_outside_what_is_published_is_told() -> None:
    done = drawn((40, 40), (36, 36), bite_mm=5)
    assert done.passes[0].bite.value == pytest.approx(10)  # a quarter of the width
    assert "outside what is published" in sentences(done)
    # A smith's own coefficient needs no published range.
    own = drawn((40, 40), (36, 36), bite_mm=5, coefficient=0.2)
    assert own.passes[0].bite.value == 5
    assert "published" not in sentences(own)


def test_a_width_that_spreading_does_not_reach_is_told() -> None:
    done = drawn((25, 25), (40, 8))
    short = [one for one in cautions(done) if one.stop]
    assert len(short) == 1
    assert "comes out at 35.7 mm instead of 40 mm" in write(short[0].sentence)
    assert "40 mm" not in told(done)[0]


def test_a_target_without_enough_section_is_refused() -> None:
    with pytest.raises(OutOfRange, match="upset it or begin with a heavier bar") as refused:
        drawn((20, 20), (30, 20))
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan, math.inf])
def test_no_size_that_is_not_one_is_taken(wrong: float) -> None:
    for start, target, bite_mm, length_mm in (
        ((wrong, 25), (20, 20), 15, 100),
        ((25, wrong), (20, 20), 15, 100),
        ((25, 25), (wrong, 20), 15, 100),
        ((25, 25), (20, wrong), 15, 100),
        ((25, 25), (20, 20), wrong, 100),
        ((25, 25), (20, 20), 15, wrong),
    ):
        with pytest.raises(OutOfRange, match="more than 0"):
            drawn(start, target, bite_mm, length_mm)


@pytest.mark.parametrize("coefficient", [-0.1, 0.81, math.nan, math.inf])
def test_a_coefficient_nobody_has_is_refused(coefficient: float) -> None:
    with pytest.raises(OutOfRange, match="coefficient"):
        drawn((25, 25), (20, 20), coefficient=coefficient)


def test_an_endless_drawing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="passes"):
        drawn((1e300, 1e300), (1, 1))


# ── laws ─────────────────────────────────────────────────────────────────────────────────────────


@given(sides_mm, sides_mm, shares, shares, bites_mm)
def test_every_plan_keeps_its_volume_and_its_limits(
    width_mm: float, height_mm: float, width_share: float, height_share: float, bite_mm: float
) -> None:
    done = drawn((width_mm, height_mm), (width_mm * width_share, height_mm * height_share), bite_mm)
    volume_mm3 = width_mm * height_mm * 100
    assert done.end.width_mm * done.end.height_mm * done.lengths_mm[-1] == pytest.approx(volume_mm3, rel=1e-9)
    for one in done.passes:
        assert 1.0 < one.size.value / one.new_size.value <= GREATEST_SQUEEZE * (1 + 1.1 * FINISHED_SHARE)
        assert one.new_across.value >= one.across.value
    assert len(done.lengths_mm) == len(done.passes) + 1
    assert all(before < after for before, after in pairwise(done.lengths_mm))
    assert done.end.width_mm <= done.target.width_mm * (1 + 2 * FINISHED_SHARE)
    assert done.end.height_mm <= done.target.height_mm * (1 + 2 * FINISHED_SHARE)
    assert told(done)
    cautions(done)


@given(sides_mm, shares, bites_mm)
def test_a_square_bar_comes_to_any_smaller_square_without_standing_tall(
    side_mm: float, share: float, bite_mm: float
) -> None:
    aim_mm = side_mm * share
    done = drawn((side_mm, side_mm), (aim_mm, aim_mm), bite_mm)
    assert min(done.end) >= aim_mm * (1 - 1e-9)
    assert max(done.end) <= aim_mm * (1 + FINISHED_SHARE)
    assert all(one.stands <= STANDS_TO * (1 + FINISHED_SHARE) for one in done.passes)
    assert not any(one.stop for one in cautions(done))


@given(sides_mm, st.floats(min_value=0.4, max_value=0.9), st.floats(min_value=0.0, max_value=0.7))
def test_less_spread_never_needs_more_passes_to_square(side_mm: float, share: float, own: float) -> None:
    aim = (side_mm * share, side_mm * share)
    assume(own > 0.05)
    spreading = drawn((side_mm, side_mm), aim, coefficient=own)
    drawing = drawn((side_mm, side_mm), aim, coefficient=0.0)
    assert len(drawing.passes) <= len(spreading.passes)


@given(sides_mm, st.floats(min_value=0.3, max_value=1.4))
def test_the_published_coefficient_is_the_one_used(side_mm: float, bite_share: float) -> None:
    first = drawn((side_mm, side_mm), (0.9 * side_mm, 0.9 * side_mm), bite_share * side_mm).passes[0]
    own = math.log(first.new_across.value / first.across.value) / math.log(
        first.size.value / first.new_size.value
    )
    assert own == pytest.approx(spread_coefficient(bite_share * side_mm, side_mm), rel=1e-9)


def test_a_bar_that_does_not_spread_to_its_width_runs_longer_for_it() -> None:
    # No metal goes astray: 10 × 10 × 36.4 mm come to 5 mm thick by what it spreads to, whatever is aimed at.
    drawing = draw(Rectangle(10, 10), Rectangle(16, 5), 15, length_mm=36.4)
    assert drawing.end.width_mm < 15.0
    runs_to_mm = 10.0 * 10.0 * 36.4 / (5.0 * drawing.end.width_mm)
    assert runs_to_mm > 36.4 * 100.0 / (16.0 * 5.0) + 2.0
    for comes_to_mm in (None, 36.4 * 100.0 / (16.0 * 5.0)):
        told = " ".join(map(str, how_to(drawing, comes_to_mm)))
        comes_to = re.search(r"36.4 mm of bar come to ([0-9.]+) mm", told)
        assert comes_to is not None
        assert float(comes_to[1]) == pytest.approx(runs_to_mm, rel=1e-3)


def test_no_longer_bite_is_asked_for_than_there_is_bar_to_bite() -> None:
    # 14.4 mm of a bar of 35 × 45 mm: a third of its height is 15 mm, which it has not.
    short = draw(Rectangle(35, 45), Rectangle(50, 14), 14.4, length_mm=14.4)
    assert not any("bite at least" in write(one.sentence) for one in cautions(short))
    long = draw(Rectangle(35, 45), Rectangle(50, 14), 14.4, length_mm=100)
    assert any("bite at least" in write(one.sentence) for one in cautions(long))
