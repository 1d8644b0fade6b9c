"""How a bar is drawn from one rectangular section to another, pass by pass."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final, Literal, NamedTuple

from coach.fire.spreading import GREATEST_BITE_SHARE, LEAST_BITE_SHARE, spread_coefficient, squeezed_mm
from coach.quantities.checks import check_size
from coach.quantities.figure import Figure, mm
from coach.quantities.refusal import OutOfRange

#: A height comes down by no more than this many times in one pass (from memory, medium confidence).
GREATEST_SQUEEZE: Final = 1.3

#: Turned on edge, a section taller than this many times its width bends by hand (from memory).
STANDS_TO: Final = 1.5

#: Above this it folds or goes out of square; 2.0 to 2.5 by different smiths, the safer taken (judgement).
FOLDS_FROM: Final = 2.0

#: A section this many times as wide as high is finished lying flat, not by turning; judgement.
FLAT_FROM: Final = 1.2

#: A bite shorter than this share of the height works the skin alone, not the core (from memory). It is more
#: than the depth of any pass, so a bite that works the core leaves no lap either.
CORE_BITE_SHARE: Final = 1.0 / 3.0

#: How near a side comes to its size before it is left alone; judgement.
FINISHED_SHARE: Final = 0.01

#: With more spread than this a bar hardly grows longer, however often it is turned; judgement.
GREATEST_COEFFICIENT: Final = 0.8

Side = Literal["height", "width"]

_OTHER: Final[dict[Side, Side]] = {"height": "width", "width": "height"}
#: How finely is reckoned (our choice).
_LEAST_ROOM: Final = 1.02
_MOST_PASSES: Final = 1000
_EDGE: Final = 1e-9


class Rectangle(NamedTuple):
    """A rectangular section; its height is what lies under the hammer at first."""

    width_mm: float
    height_mm: float


class Pass(NamedTuple):
    """One going-over of the whole length on one side."""

    side: Side  # the side that comes down, height or width, as the bar lay at first
    size: Figure  # that side before
    new_size: Figure  # and after
    across: Figure  # the other side before
    new_across: Figure  # and after
    bite: Figure
    bites: int  # how many

    @property
    def stands(self) -> float:
        """How many times its width the section is tall as the pass begins."""
        return self.size.value / self.across.value


class Drawing(NamedTuple):
    """The passes that bring a bar to a section."""

    start: Rectangle
    target: Rectangle
    end: Rectangle
    bite_mm: float
    lengths_mm: tuple[float, ...]  # of the bar before the first pass and after each
    passes: tuple[Pass, ...]
    before_flat: int | None  # of a flat: how many passes come before it is laid flat for good

    @property
    def bites(self) -> int:
        """How many bites all the passes take."""
        return sum(one.bites for one in self.passes)


def draw(
    start: Rectangle,
    target: Rectangle,
    bite_mm: float,
    *,
    length_mm: float,
    coefficient: float | None = None,
) -> Drawing:
    """The passes from a section to another, all sizes in mm, with a bite along the bar.

    Each pass brings the side that is furthest above its size down to it, but by no more than
    GREATEST_SQUEEZE and not so far that the bar, turned, stands taller than STANDS_TO times its width; the
    other side spreads meanwhile. It ends when both sides are within FINISHED_SHARE above their sizes. What is
    to be flat, from FLAT_FROM on, is first drawn to a section from which it spreads to its width lying flat.
    `coefficient` is the smith's own spread coefficient, from 0 to GREATEST_COEFFICIENT; without it the
    published one is taken, and the bite is kept within its range where the bar is too narrow or too wide.
    A side that the spreading does not bring up to its size ends below it: `coach.fire.how_to_draw` tells.
    Raises OutOfRange when the target is larger than the start, and for what is not a size.
    Sources: the spreading, `coach.fire.spreading`; the limits, as said of each constant here.

    >>> plan = draw(Rectangle(20, 25), Rectangle(20, 20), 15, length_mm=100, coefficient=0.33)
    >>> [(one.side, round(one.size.value, 2)) for one in plan.passes]
    [('height', 25), ('width', 21.53), ('height', 20.49)]
    """
    for size_mm, what in (
        (start.width_mm, "width of the bar"),
        (start.height_mm, "height of the bar"),
        (target.width_mm, "width to draw to"),
        (target.height_mm, "height to draw to"),
        (bite_mm, "bite"),
        (length_mm, "length to be drawn"),
    ):
        check_size(size_mm, what)
    if coefficient is not None and not 0.0 <= coefficient <= GREATEST_COEFFICIENT:
        raise OutOfRange(
            f"A spread coefficient lies from 0 to {GREATEST_COEFFICIENT:g} for drawing, not at "
            f"{coefficient:g}; measure one heat again."
        )
    if target.width_mm * target.height_mm > start.width_mm * start.height_mm * (1.0 + FINISHED_SHARE):
        raise OutOfRange(
            "A bar of {} × {} has less section than {} × {}, and drawing only takes section away; upset "
            "it or begin with a heavier bar.",
            mm(start.width_mm),
            mm(start.height_mm),
            mm(target.width_mm),
            mm(target.height_mm),
        )
    hammer = _Hammer(start, bite_mm, length_mm, coefficient)
    before_flat: int | None = None
    if max(target) <= FLAT_FROM * min(target):
        hammer.draw_to(target)
    else:
        flat_of: Side = "height" if target.height_mm < target.width_mm else "width"
        hammer.make_ready(target, flat_of)
        before_flat = len(hammer.passes)
        hammer.flatten(target, flat_of)
    return Drawing(
        start, target, hammer.section, bite_mm, tuple(hammer.lengths_mm), tuple(hammer.passes), before_flat
    )


class _Hammer:
    """A bar being drawn."""

    def __init__(self, start: Rectangle, bite_mm: float, length_mm: float, coefficient: float | None) -> None:
        self.section = start
        self.lengths_mm = [length_mm]
        self.passes: list[Pass] = []
        self._bite_mm = bite_mm
        self._coefficient = coefficient

    def draw_to(self, goal: Rectangle) -> None:
        """Squeeze the side that is furthest above the goal, until neither is."""
        while (side := self._next_side(goal)) is not None:
            self._squeeze_towards(goal, side)

    def make_ready(self, target: Rectangle, side: Side) -> None:
        """Draw the bar until squeezing `side` alone makes it as wide as the target, or less wide."""
        while True:
            needed = self._before_flat(target, side, flattest=0.0)
            if self._size(_OTHER[side]) <= side_mm(needed, _OTHER[side]) * (1.0 + FINISHED_SHARE):
                return
            goal = self._before_flat(target, side, flattest=STANDS_TO)
            if (wanting := self._next_side(goal)) is not None:
                self._squeeze_towards(goal, wanting)
            else:
                self._squeeze_towards(needed, _OTHER[side])

    def flatten(self, target: Rectangle, side: Side) -> None:
        """Squeeze one side only, down to its size in the target."""
        while self._size(side) > side_mm(target, side) * (1.0 + _EDGE):
            self._squeeze(side, side_mm(target, side))

    def _before_flat(self, target: Rectangle, side: Side, *, flattest: float) -> Rectangle:
        """The section from which squeezing `side` alone ends at the target.

        Worked backwards, pass by pass, until the bar is no flatter than asked, or as high as it is now.
        """
        height_mm, width_mm = side_mm(target, side), side_mm(target, _OTHER[side])
        highest_mm = max(height_mm, self._size(side))
        while width_mm > flattest * height_mm and height_mm < highest_mm:
            higher_mm = min(height_mm * GREATEST_SQUEEZE, highest_mm)
            after_mm = width_mm
            for _ in range(40):  # the coefficient belongs to the width before, which follows from it
                width_mm = after_mm / (higher_mm / height_mm) ** self._spread(width_mm)[1]
            height_mm = higher_mm
        return Rectangle(width_mm, height_mm) if side == "height" else Rectangle(height_mm, width_mm)

    def _squeeze_towards(self, goal: Rectangle, side: Side) -> None:
        """One pass towards a goal, not so far that the bar stands too tall when it is turned."""
        lowest_mm = min(self._as_low_as_it_stands(side), self._size(side) / _LEAST_ROOM)
        if self._size(side) >= self._size(_OTHER[side]) * STANDS_TO:
            lowest_mm = 0.0  # it stands on edge now, and is less tall after any pass
        self._squeeze(side, max(side_mm(goal, side), lowest_mm))

    def _next_side(self, goal: Rectangle) -> Side | None:
        above: dict[Side, float] = {
            "height": self.section.height_mm / goal.height_mm,
            "width": self.section.width_mm / goal.width_mm,
        }
        wanting = [side for side in above if above[side] > 1.0 + FINISHED_SHARE]
        if not wanting:
            return None
        roomy = [s for s in wanting if self._as_low_as_it_stands(s) * _LEAST_ROOM < self._size(s)]
        return max(roomy or wanting, key=lambda side: above[side])

    def _as_low_as_it_stands(self, side: Side) -> float:
        """How far a side may come down before the bar, turned, stands too tall: w (h/h1)^s = 1.5 h1."""
        height_mm, width_mm = self._size(side), self._size(_OTHER[side])
        share = self._spread(width_mm)[1]
        return float((width_mm * height_mm**share / STANDS_TO) ** (1.0 / (1.0 + share)))

    def _squeeze(self, side: Side, lowest_mm: float) -> None:
        if len(self.passes) >= _MOST_PASSES:
            raise OutOfRange("Drawing it so takes more than a thousand passes; begin with a lighter bar.")
        from_mm, across_mm = self._size(side), self._size(_OTHER[side])
        to_mm = max(lowest_mm, from_mm / GREATEST_SQUEEZE)
        if to_mm <= lowest_mm * (1.0 + FINISHED_SHARE):
            to_mm = lowest_mm  # rather than one more pass for the last hair
        bite_mm, share = self._spread(across_mm)
        wider_mm = squeezed_mm(across_mm, from_mm, to_mm, share)
        bites = math.ceil(self.lengths_mm[-1] / bite_mm * (1.0 - _EDGE))
        sizes = mm(from_mm), mm(to_mm), mm(across_mm), mm(wider_mm), mm(bite_mm)
        self.passes.append(Pass(side, *sizes, bites))
        self.lengths_mm.append(squeezed_mm(self.lengths_mm[-1], from_mm, to_mm, 1.0 - share))
        self.section = Rectangle(wider_mm, to_mm) if side == "height" else Rectangle(to_mm, wider_mm)

    def _size(self, side: Side) -> float:
        return side_mm(self.section, side)

    def _spread(self, width_mm: float) -> tuple[float, float]:
        """The bite on a width and the spread coefficient that goes with it."""
        if self._coefficient is not None:
            return self._bite_mm, self._coefficient
        least_mm = LEAST_BITE_SHARE * width_mm * (1.0 + _EDGE)
        greatest_mm = GREATEST_BITE_SHARE * width_mm * (1.0 - _EDGE)
        bite_mm = min(max(self._bite_mm, least_mm), greatest_mm)
        return bite_mm, spread_coefficient(bite_mm, width_mm)


def side_mm(section: Rectangle, side: Side) -> float:
    """The size of a section on one side."""
    return section.height_mm if side == "height" else section.width_mm


def quarter_turns(passes: Sequence[Pass]) -> int:
    """How often the bar is turned between passes."""
    return sum(one.side != other.side for one, other in pairwise(passes))
