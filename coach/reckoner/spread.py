"""How wide and long a bar becomes under the hammer, and the passes that draw it to a section."""

from __future__ import annotations

from functools import partial
from typing import Final, NamedTuple

from coach.fire.how_to_draw import cautions, how_to
from coach.fire.passes import Drawing, Section, draw
from coach.fire.spreading import (
    COEFFICIENT_DOUBT,
    elongated_mm,
    spread_coefficient,
    spread_width_mm,
)
from coach.quantities import Shown, write_length
from coach.reckoner.asking import NotReckoned, TypedBar
from coach.telling.words import write

#: Without a bite, half the width is reckoned with, as the plan does until a heat has been measured.
USUAL_BITE_SHARE: Final = 0.5
#: The passes are told for this much bar: 100 mm, or 4 in where inches are shown.
TOLD_LENGTHS_MM: Final = {"mm": 100.0, "in": 101.6}


class SqueezeView(NamedTuple):
    """One side brought down and not turned."""

    height: float  # the side under the hammer
    new_height: float  # what it is brought down to
    new_height_text: str
    width: float  # the other side
    new_width: float  # what it spreads to
    new_width_text: str
    width_factor: float  # how many times as wide it becomes
    length_factor: float  # how many times as long


class PassView(NamedTuple):
    """One going-over of the whole length."""

    side: str  # height or width, as the bar lay at first
    from_size: float  # from what
    to_size: float  # to what
    across_from: float  # the other side before
    across_to: float  # and after
    bite: float
    bites: int  # how many
    text: str


class DrawingView(NamedTuple):
    """A bar drawn from one section to another."""

    target: str  # the section as shown
    width: float  # as it ends
    height: float  # the height it ends at
    length_factor: float  # how many times as long it becomes
    passes: tuple[PassView, ...]  # a list of passes, in order
    quarter_turns: int  # how often it is turned between them
    bites: int  # for 100 mm of bar, or 4 in where inches are shown
    how: tuple[str, ...]  # what to do, in sentences
    cautions: tuple[str, ...]  # what may spoil it, in sentences


class SpreadView(NamedTuple):
    """What spreading does to a bar; None for what was not asked."""

    section: str  # the bar as shown
    bite: float  # how much of it lies under the hammer
    bite_text: str
    coefficient: float  # the share of a squeeze that goes into the width, on logarithms
    coefficient_doubt: float  # how far one smith's differs
    squeeze: SqueezeView | None  # down to a thickness
    drawing: DrawingView | None  # to a section


def spread(
    bar: TypedBar, shown: Shown, *, thickness_mm: float | None, target: TypedBar | None, bite_mm: float | None
) -> SpreadView:
    """One side squeezed to a thickness, and the passes that draw the bar to a section, where each is asked.

    Raises NotReckoned for a bar that has not four sides, OutOfReach for a bite outside what is published and
    Undrawable for a larger section. Source: Tomlinson and Stringer, by `coach.fire.spreading`.

    >>> told = spread(TypedBar("square", (25.0,)), Shown(), thickness_mm=20, target=None, bite_mm=15)
    >>> told.squeeze.new_width_text
    '26.9 mm'
    """
    for one in (bar, target):
        if one is not None and not one.has_four_sides:
            raise NotReckoned(
                f"Spreading is published for square and flat bars, not for {one.text(shown)}; give the "
                "section that it is forged square or flat to."
            )
    width_mm, height_mm = bar.width_mm, bar.thickness_mm
    bite_mm = USUAL_BITE_SHARE * width_mm if bite_mm is None else bite_mm
    coefficient = spread_coefficient(bite_mm, width_mm)
    squeeze = None
    if thickness_mm is not None:
        new_width_mm = spread_width_mm(width_mm, height_mm, thickness_mm, coefficient)
        squeeze = SqueezeView(
            height=height_mm,
            new_height=thickness_mm,
            new_height_text=write_length(thickness_mm, shown),
            width=width_mm,
            new_width=new_width_mm,
            new_width_text=write_length(new_width_mm, shown),
            width_factor=new_width_mm / width_mm,
            length_factor=elongated_mm(1.0, height_mm, thickness_mm, coefficient),
        )
    drawing = None
    if target is not None:
        drawing = _told(drawing_of(bar, target, bite_mm, TOLD_LENGTHS_MM[shown.system]), target, shown)
    return SpreadView(
        section=bar.text(shown),
        bite=bite_mm,
        bite_text=write_length(bite_mm, shown),
        coefficient=coefficient,
        coefficient_doubt=COEFFICIENT_DOUBT,
        squeeze=squeeze,
        drawing=drawing,
    )


def drawing_of(bar: TypedBar, target: TypedBar, bite_mm: float, length_mm: float) -> Drawing:
    """The passes from one four-sided section to another; raises Undrawable."""
    start = Section(bar.width_mm, bar.thickness_mm)
    return draw(start, Section(target.width_mm, target.thickness_mm), bite_mm, length_mm=length_mm)


def _told(drawing: Drawing, target: TypedBar, shown: Shown) -> DrawingView:
    say = partial(write_length, shown=shown)
    return DrawingView(
        target=target.text(shown),
        width=drawing.end.width_mm,
        height=drawing.end.height_mm,
        length_factor=drawing.end_length_mm / drawing.length_mm,
        passes=tuple(
            PassView(
                side=one.side,
                from_size=one.from_mm,
                to_size=one.to_mm,
                across_from=one.across_from_mm,
                across_to=one.across_to_mm,
                bite=one.bite_mm,
                bites=one.bites,
                text=f"{one.side} from {say(one.from_mm)} to {say(one.to_mm)}, "
                f"the other side to {say(one.across_to_mm)}",
            )
            for one in drawing.passes
        ),
        quarter_turns=drawing.quarter_turns,
        bites=drawing.bites,
        how=tuple(write(one, shown) for one in how_to(drawing)),
        cautions=tuple(write(one.sentence, shown) for one in cautions(drawing)),
    )
