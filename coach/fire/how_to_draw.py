"""How a drawing is carried out pass by pass, in plain sentences, and what may go wrong with it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final, NamedTuple, get_args

from coach.fire.passes import (
    CORE_BITE_SHARE,
    FINISHED_SHARE,
    FOLDS_FROM,
    GREATEST_SQUEEZE,
    STANDS_TO,
    Drawing,
    Pass,
    Rectangle,
    Side,
    quarter_turns,
    side_mm,
)
from coach.quantities.figure import mm
from coach.quantities.words import Words, counted, say

_SIDES: Final[tuple[Side, ...]] = get_args(Side)

#: How it is told (our choice).
_TIMES: Final = {1: "once", 2: "twice"}
_STANDS_TOO_TALL: Final = STANDS_TO * (1.0 + FINISHED_SHARE)
_BITE_AS_ASKED: Final = 0.05
_WITHIN: Final = f"{100 * FINISHED_SHARE:g} %"


class DrawingCaution(NamedTuple):
    """What may go wrong with a drawing, in one sentence."""

    stop: bool  # whether it is better not begun so
    sentence: Words


def how_to(drawing: Drawing, comes_to_mm: float | None = None) -> tuple[Words, ...]:
    """What to do, in plain sentences; `comes_to_mm` is the length at the target where scale is reckoned too.

    A bar that spreads less than to its target keeps that metal in its length.

    >>> from coach.fire.passes import draw
    >>> str(how_to(draw(Rectangle(20, 25), Rectangle(20, 20), 15, length_mm=100, coefficient=0.33))[0])
    'Turn a quarter after each pass: 3 passes bring it to 20 mm × 20 mm within 1 %.'
    """
    falls_short = any(_falls_short(drawing, side) for side in _SIDES)
    aim = _by(drawing.end) if falls_short else say("{} within {}", _by(drawing.target), _WITHIN)
    passes = drawing.passes
    if not passes:
        return (say("It is at {} already.", aim),)
    longer = math.prod(drawing.target) / math.prod(drawing.end) if falls_short else 1.0
    length_mm = comes_to_mm * longer if comes_to_mm is not None else drawing.lengths_mm[-1]
    lines = [*_steps(drawing, aim), _biting(drawing, length_mm)]
    if quarter_turns(passes) and all(one.stands <= _STANDS_TOO_TALL for one in passes):
        tall = f"{STANDS_TO:g}"
        lines.append(say("Do not let it stand taller than {} times its width: it bends and folds.", tall))
    return tuple(lines)


def _steps(drawing: Drawing, aim: Words) -> Iterator[Words]:
    """The turning, and the laying flat where it comes to that."""
    passes, before_flat = drawing.passes, drawing.before_flat
    turned = passes if before_flat is None else passes[:before_flat]
    if len(turned) == len(passes):
        yield say("{}: {} it to {}.", _turning(passes), _bring(len(passes)), aim)
        return
    if turned:
        flat = passes[len(turned)]
        ready = say("{} wide and {} high", flat.across, flat.size)
        yield say("{}: {} it to {}.", _turning(turned), _bring(len(turned)), ready)
    yield say(
        "{} it flat and bring it down to {} in {}; it spreads to {}.",
        "Then lay" if turned else "Lay",
        passes[-1].new_size,
        _passes(len(passes) - len(turned)),
        passes[-1].new_across,
    )


def _biting(drawing: Drawing, comes_to_mm: float) -> Words:
    shortest, longest = (pick(one.bite.value for one in drawing.passes) for pick in (min, max))
    bite = say("about {}", mm(longest))
    if longest > 1.05 * shortest:  # told apart from here on (our choice)
        bite = say("{} to {}", mm(shortest), mm(longest))
    return say(
        "Bite {} at a time, {} in all, a blow or more to each; {} of bar come to {}.",
        bite,
        counted(drawing.bites, "bite"),
        mm(drawing.lengths_mm[0]),
        mm(comes_to_mm),
    )


def on_edge_too_far(drawing: Drawing) -> bool:
    """Whether a pass would have it stand so tall on edge that it folds."""
    return any(one.stands > FOLDS_FROM for one in drawing.passes)


def fullered_in(start: Rectangle) -> Words:
    """How what would fold on edge is made narrower where it is to come out thicker than it is.

    >>> str(fullered_in(Rectangle(40, 12)))[:68]
    'On edge it stands 3.3 times its thickness and folds under the face: '
    """
    return say(
        "On edge it stands {} times its thickness and folds under the face: fuller it in from both edges, "
        "a little from each in turn, and straighten it flat before it waves.",
        f"{start.width_mm / start.height_mm:.1f}",
    )


def flat_only(start_mm: float, target_mm: float) -> Words:
    """How what would fold on edge is thinned: lying flat, its edges dressed between the passes.

    >>> str(flat_only(8.0, 4.5))
    'Leave it flat and bring it down to 4.5 mm in 3 passes, its edges dressed after each: on edge it folds.'
    """
    count = math.ceil(math.log(start_mm / target_mm) / math.log(GREATEST_SQUEEZE) * (1.0 - 1e-9))
    return say(
        "Leave it flat and bring it down to {} in {}, its edges dressed after each: on edge it folds.",
        mm(target_mm),
        _passes(max(count, 1)),
    )


def cautions(drawing: Drawing) -> tuple[DrawingCaution, ...]:
    """What may go wrong, worst first; nothing when all is well."""
    return _worst_first([*_cautions(drawing), *_shortfalls(drawing, "", in_hand=False)])


def cautions_along(middle: Drawing, ends: Mapping[str, Drawing]) -> tuple[DrawingCaution, ...]:
    """The same of a taper in hand, by its section in the middle and by those at its ends.

    Where spreading does not bring it to its sizes is told of the section that falls short the most, for
    there more is left to do; `ends` are by what they are called.
    """
    there = {"in the middle": middle, **ends}
    where = max(there, key=lambda one: _short_by(there[one]))
    return _worst_first([*_cautions(middle), *_shortfalls(there[where], f" {where}", in_hand=True)])


def cautions_in_hand(drawing: Drawing) -> tuple[DrawingCaution, ...]:
    """The same of a bar in hand: nobody says that it had better been another."""
    return _worst_first([*_cautions(drawing), *_shortfalls(drawing, "", in_hand=True)])


def _worst_first(found: Iterable[DrawingCaution]) -> tuple[DrawingCaution, ...]:
    return tuple(sorted(found, key=lambda one: not one.stop))


def _short_by(drawing: Drawing) -> float:
    """How many times as large as it comes out it is to be, where it is short the most."""
    return max(side_mm(drawing.target, side) / side_mm(drawing.end, side) for side in _SIDES)


def _cautions(drawing: Drawing) -> Iterator[DrawingCaution]:
    if not drawing.passes:
        return
    tallest = max(drawing.passes, key=lambda one: one.stands)
    if tallest.stands > _STANDS_TOO_TALL:
        folds = tallest.stands > FOLDS_FROM
        sentence = say(
            "On edge it stands {} tall on {}, {} times its width: it may fold; {}.",
            tallest.size,
            tallest.across,
            f"{tallest.stands:.1f}",
            "begin with a squarer bar" if folds else "strike lightly and straighten it often",
        )
        yield DrawingCaution(folds, sentence)
    thickest = max(drawing.passes, key=lambda one: one.size.value / one.bite.value)
    least_mm = CORE_BITE_SHARE * thickest.size.value
    whole_mm = drawing.lengths_mm[0]  # no bite is longer than what there is to bite
    if thickest.bite.value < min(least_mm, whole_mm * (1.0 - FINISHED_SHARE)):
        sentence = say(
            "A bite of {} is less than a third of a height of {}, so that only the skin is worked; bite at "
            "least {}.",
            *(thickest.bite, thickest.size, mm(least_mm)),
        )
        yield DrawingCaution(False, sentence)
    off = max(drawing.passes, key=lambda one: abs(math.log(one.bite.value / drawing.bite_mm)))
    if abs(math.log(off.bite.value / drawing.bite_mm)) > _BITE_AS_ASKED:
        sentence = say(
            "A bite of {} is outside what is published for a width of {}; {} is reckoned with there.",
            *(mm(drawing.bite_mm), off.across, off.bite),
        )
        yield DrawingCaution(False, sentence)


def _shortfalls(drawing: Drawing, where: str, *, in_hand: bool) -> Iterator[DrawingCaution]:
    for side in _SIDES:
        if _falls_short(drawing, side):
            sentence = say(
                "The {}{} comes out at {} instead of {}, for spreading does not bring it further; {}.",
                side,
                where,
                mm(side_mm(drawing.end, side)),
                mm(side_mm(drawing.target, side)),
                "go on with the peen along it"
                if in_hand
                else "take wider bites, or begin with a bar that is larger there",
            )
            yield DrawingCaution(True, sentence)


def _falls_short(drawing: Drawing, side: Side) -> bool:
    return side_mm(drawing.end, side) < side_mm(drawing.target, side) * (1.0 - FINISHED_SHARE)


def _by(section: Rectangle) -> Words:
    return say("{} × {}", mm(section.width_mm), mm(section.height_mm))


def _bring(count: int) -> str:
    return f"{_passes(count)} {'brings' if count == 1 else 'bring'}"


def _passes(count: int) -> str:
    return f"{count} pass{'' if count == 1 else 'es'}"


def _turning(passes: Sequence[Pass]) -> str:
    turns = quarter_turns(passes)
    if len(passes) == 1 or turns == 0:
        return "Keep striking the same side"
    if turns == len(passes) - 1:
        return "Turn a quarter after each pass"
    return f"Turn a quarter {_TIMES.get(turns, f'{turns} times')}, as the list of passes says"
