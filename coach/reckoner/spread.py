"""What a blow does to the width of a bar, and the passes that bring it to a section."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.fire.how_to_draw import cautions, how_to
from coach.fire.passes import Drawing, Pass, Rectangle, draw, quarter_turns
from coach.fire.spreading import COEFFICIENT_DOUBT, spread_coefficient, squeezed_mm
from coach.quantities import Figure, Kind, Words, mm, say
from coach.reckoner.asking.reading import NotReckoned, Target, TypedBar
from coach.reckoner.asking.takes import bar, size, target
from coach.reckoner.asking.told import Told, Under, rows

SUMMARY = "Tell how a bar spreads and lengthens, and the passes to a section."
SOURCES = (
    "Source: A. Tomlinson and J. D. Stringer, Spread and elongation in flat tool forging, Journal of the "
    "Iron and Steel Institute 193 (1959) (from memory), for mild steel between flat tools; your own hammer "
    "differs by about 0.08 in the coefficient (judgement)."
)
TAKES = (
    bar(),
    target("20: one side down to it and, of a square bar, also drawn square; 30x10: drawn to this section"),
    size("--bite", "how much bar lies under the hammer; else half the width", metavar="B"),
    size("--length", "how much bar is drawn; else 100 mm", usual="100 mm"),
)

#: Without a bite, half the width is reckoned with, as the plan does until a heat has been measured (common
#: practice, no source).
USUAL_BITE_SHARE: Final = 0.5


#: How many times thinner one side may become by the published spreading, which is of single squeezes
#: (judgement).
GREATEST_SQUEEZE_FACTOR: Final = 5.0


class Squeeze(NamedTuple):
    """One side brought down and not turned."""

    height: Figure  # the side under the hammer
    new_height: Figure  # what it is brought down to
    width: Figure  # the other side
    new_width: Figure  # what it spreads to
    width_factor: Figure  # how many times as wide it becomes
    length_factor: Figure  # how many times as long it becomes


class DrawnOut(NamedTuple):
    """A bar drawn from one section to another."""

    target: TypedBar
    width: Figure  # as it ends
    height: Figure  # as it ends
    length: Figure  # how much bar is drawn
    length_factor: Figure  # how many times as long it becomes
    passes: tuple[Pass, ...]  # in order
    quarter_turns: int  # how often it is turned between them
    bites: int  # how many bites they take
    how: tuple[Words, ...]  # what to do
    cautions: tuple[Words, ...]  # what may spoil it


class Spread(NamedTuple):
    """What spreading does to a bar; None for what was not asked."""

    section: TypedBar
    bite: Figure  # how much of it lies under the hammer
    coefficient: Figure  # the share of a squeeze that goes into the width, on logarithms
    squeeze: Squeeze | None  # down to a thickness
    drawing: DrawnOut | None  # to a section


def reckon(section: TypedBar, to: Target, bite: float | None = None, length: float = 100.0) -> Spread:
    """One side squeezed to a thickness, and the passes that draw the bar to a section, where each is asked.

    Raises NotReckoned for a bar that has not four sides, OutOfRange for a bite outside what is published and
    OutOfRange for a larger section. Source: Tomlinson and Stringer, by `coach.fire.spreading`.

    >>> to = Target(TypedBar("square", (20.0,)), 20.0)
    >>> round(reckon(TypedBar("square", (25.0,)), to, 15, 100).squeeze.new_width.value, 1)
    26.9
    """
    for one in (section, to.bar):
        if not one.has_four_sides:
            raise NotReckoned(
                "Spreading is published for square and flat bars, not for {}; give the section that it is "
                "forged square or flat to.",
                one.words,
            )
    bite_mm = USUAL_BITE_SHARE * section.width_mm if bite is None else bite
    coefficient = spread_coefficient(bite_mm, section.width_mm)
    squeeze = drawing = None
    if to.thickness_mm is not None and section.thickness_mm > GREATEST_SQUEEZE_FACTOR * to.thickness_mm:
        raise NotReckoned(
            "From {} to {} on one side is further than the spreading is published for; go by steps, "
            "first to {} or more.",
            *(mm(section.thickness_mm), mm(to.thickness_mm)),
            mm(section.thickness_mm / GREATEST_SQUEEZE_FACTOR),
        )
    if to.thickness_mm is not None:
        squeeze = _squeezed(section, to.thickness_mm, coefficient)
    if to.thickness_mm is None or section.kind == "square":
        drawing = _drawn(drawing_of(section, to.bar, bite_mm, length), to.bar)
    return Spread(section, mm(bite_mm), _factor(coefficient, COEFFICIENT_DOUBT), squeeze, drawing)


def told(answer: Spread) -> Iterator[Told]:
    """The spread, and the passes."""
    share_told = "{}, with a bite of {}: {:±} of what the hammer takes goes into the width"
    yield say(share_told, answer.section.words, answer.bite, answer.coefficient)
    if (one := answer.squeeze) is not None:
        becomes = "It becomes {:±} wide, {} times as wide as before, and {} times as long."
        words = say(becomes, one.new_width, one.width_factor, one.length_factor)
        yield Under(say("Down to {} on one side", one.new_height), (words,))
    if (drawing := answer.drawing) is not None:
        passes = rows(
            (
                str(number),
                say(
                    "{} from {} to {}, the other side to {}", one.side, one.size, one.new_size, one.new_across
                ),
            )
            for number, one in enumerate(drawing.passes, 1)
        )
        longer = say("It becomes {} times as long.", drawing.length_factor)
        heading = say("Drawn to {}", drawing.target.words)
        yield Under(heading, (passes, longer, *drawing.how, *drawing.cautions))


def drawing_of(bar: TypedBar, target: TypedBar, bite_mm: float, length_mm: float) -> Drawing:
    """The passes from one four-sided section to another; raises OutOfRange."""
    start = Rectangle(bar.width_mm, bar.thickness_mm)
    return draw(start, Rectangle(target.width_mm, target.thickness_mm), bite_mm, length_mm=length_mm)


def _squeezed(bar: TypedBar, thickness_mm: float, coefficient: float) -> Squeeze:
    """What a squeeze leaves; a factor (h0/h1)^s is doubted by itself times ln(h0/h1) times the doubt of s."""
    sizes_mm = bar.thickness_mm, thickness_mm
    new_width_mm = squeezed_mm(bar.width_mm, *sizes_mm, coefficient)
    doubt_share = COEFFICIENT_DOUBT * math.log(bar.thickness_mm / thickness_mm)
    wider, longer = new_width_mm / bar.width_mm, squeezed_mm(1.0, *sizes_mm, 1.0 - coefficient)
    return Squeeze(
        mm(bar.thickness_mm),
        mm(thickness_mm),
        mm(bar.width_mm),
        mm(new_width_mm, doubt_share * new_width_mm),
        _factor(wider, doubt_share * wider),
        _factor(longer, doubt_share * longer),
    )


def _drawn(drawing: Drawing, target: TypedBar) -> DrawnOut:
    return DrawnOut(
        target,
        mm(drawing.end.width_mm),
        mm(drawing.end.height_mm),
        mm(drawing.lengths_mm[0]),
        _factor(drawing.lengths_mm[-1] / drawing.lengths_mm[0]),
        drawing.passes,
        quarter_turns(drawing.passes),
        drawing.bites,
        how_to(drawing),
        tuple(one.sentence for one in cautions(drawing)),
    )


def _factor(value: float, doubt: float | None = None) -> Figure:
    return Figure(value, Kind.FACTOR, doubt)
