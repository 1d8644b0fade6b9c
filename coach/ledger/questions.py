"""What a recipe says that may well be meant, and is asked about: slips that no grammar can catch."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.forms import listed, said
from coach.ledger.odd_amounts import odd_amounts, odd_scale
from coach.ledger.plan import Plan
from coach.ledger.quenched_beside import quenched_beside
from coach.ledger.weigh import placed_words
from coach.ledger.weigh_edge import blunt_zone, flatter_than_body, odd_edge
from coach.ledger.weigh_ends import thick_at_its_free_end
from coach.ledger.weigh_grain import quenched_anew, quenched_coarse
from coach.ledger.weigh_heat import drawn_by_neighbours, hot_for_its_weld
from coach.ledger.weigh_hole import punched_cold, punched_thin, thin_cheeks, thin_end
from coach.ledger.weigh_joint import undrawn_holes
from coach.ledger.weigh_narrowed import brought_in
from coach.ledger.weigh_order import hafted_for_a_while
from coach.ledger.weigh_punched import reshaped_by_punch
from coach.ledger.weigh_spread import spread_too_far
from coach.ledger.weigh_stub import drawn_from_a_stub
from coach.ledger.weigh_treatment import unusual_treatment
from coach.ledger.weigh_weld import (
    counted_too_hot,
    drawn_by_weld,
    drawn_shut,
    left_open,
    short_scarf,
    without_flux,
)
from coach.metals.tempering import HIGHEST_C as _HOTTEST_TEMPER_C
from coach.operations.does import HeatKind
from coach.quantities import Kind, Span, Wanted, Words, celsius, mm, run_on, say
from coach.recipe.colour_words import may_be_c
from coach.recipe.model import Step, ZoneDrawing
from coach.recipe.one_bar import inside_its_bar

_ACROSS: Final = ("width", "thickness", "side", "diameter", "across_flats")
#: A zone is seldom more than so many times as wide as its bar, or less than one so many times as thin; and a
#: tolerance seldom more than this share of its size from end to end (judgement).
_TIMES_WIDER, _TIMES_THINNER, _LOOSE_SHARE = 3.0, 8.0, 0.8
#: What is asked of one step's effect on one zone.
_OF_STAGES: Final = (
    *(brought_in, thin_cheeks, punched_cold, punched_thin, spread_too_far, drawn_from_a_stub, short_scarf),
    *(drawn_by_weld, drawn_shut, reshaped_by_punch),
)


class Question(NamedTuple):
    """One thing to be looked at again, and where it stands."""

    step: int  # 0 for the drawing
    zone: str  # the zone; empty where it is the whole step
    sentence: Words
    line: int = 0  # in the recipe's file; 0 where that is not known
    column: int = 0
    piece: str = ""  # whose bar it is about; empty where it is about none
    #: the zones of which whatever else is found may follow from this slip; none where it is no such
    brings: tuple[str, ...] = ()
    key: str = ""  # the key of the recipe's head that it is about; empty where it is about none

    @property
    def placed(self) -> Words:
        """The sentence with where it stands, where that is known."""
        return placed_words(self.sentence, self.line, self.column)


def questions(plan: Plan) -> Iterator[Question]:
    """Everything to be asked about a recipe, in the order of its steps."""
    for words in odd_scale(plan.recipe.scale):
        yield Question(0, "", words, key="scale")
    for name in plan.recipe.pieces:
        yield from _far_from_their_bar(plan, name)
    for zone, drawn in plan.recipe.drawing.items():
        for words in _loose(drawn):
            yield Question(0, zone, words)
        if thick := thick_at_its_free_end(plan, zone):
            yield Question(0, zone, thick)
    for step in plan.recipe.steps:
        if (colour := _other_colour(step)) is not None:
            yield Question(step.number, "", colour)
        for odd in (odd_edge(step), blunt_zone(plan, step)):
            if odd is not None and flatter_than_body(plan, step) is None:  # which is told already
                yield Question(step.number, "", odd)
        for words in odd_amounts(plan, step):
            yield Question(step.number, "", words)
        of_welds = (
            without_flux(plan, step),
            counted_too_hot(plan, step),
            hot_for_its_weld(plan, step),
        )
        for words in (
            *(asked for asked in of_welds if asked is not None),
            *quenched_coarse(plan, step),
            *quenched_anew(plan, step),
            *unusual_treatment(plan, step),
        ):
            yield Question(step.number, "", say("Step {}, {}: {}", step.number, step.title, words))
    for inside in inside_its_bar(plan.recipe):
        words = say("Step {}, {}: {}", inside.step.number, inside.step.title, inside.words())
        yield Question(inside.step.number, inside.zone, words)
    asked_of = [(stage, ask(stage)) for ask in _OF_STAGES for way in plan.stages.values() for stage in way]
    asked_of += [
        (stage, ask(stage, plan))
        for ask in (left_open, thin_end)
        for way in plan.stages.values()
        for stage in way
    ]
    thin = [(stage.step, stage.zone, words) for stage, words in asked_of if words is not None]
    for step, zone, words in (
        *thin,
        *drawn_by_neighbours(plan),
        *hafted_for_a_while(plan),
        *((one, name, words) for one in plan.recipe.steps for name, words in undrawn_holes(plan, one)),
        *quenched_beside(plan),
    ):
        yield Question(step.number, zone, say("Step {}, {}: {}", step.number, step.title, words))


class _Far(NamedTuple):
    """A size of a zone that no ordinary work makes of its bar."""

    dimension: str
    size_mm: float
    zones: tuple[str, ...]  # of its piece, that are drawn to the same size


def _far_from_their_bar(plan: Plan, name: str) -> Iterator[Question]:
    """Sections that no ordinary work makes of a bar: a decimal mark that was lost or put in, told once.

    Where all zones of a piece are so, it is likely the bar's.
    """
    piece = plan.recipe.pieces[name]
    far = {zone: one for zone in piece.every_zone if (one := _far_from_its_bar(plan, zone)) is not None}
    across = [piece.stock.sizes_mm[one] for one in _ACROSS if one in piece.stock.sizes_mm]
    bar = run_on([say("{}", mm(one)) for one in across], " × ")
    if len(far) > 1 and len(far) == len(piece.every_zone):
        sizes = [say("{}", mm(one)) for one in sorted({one.size_mm for one in far.values()})]
        words = say(
            "The bar of {} is {} across, and {} are drawn to {}: is its decimal mark in the right place?",
            *(name, bar, listed([*far]), run_on(sizes, ", ")),
        )
        yield Question(0, "", words, piece=name, brings=tuple(far))
        return
    for zone, one in far.items():
        if one.zones[0] == zone:  # of those drawn alike it is told with the first
            words = say(
                "The {} of {} is to be {}, from a bar of {}: is its decimal mark in the right place?",
                *(said(one.dimension), listed(one.zones), mm(one.size_mm), bar),
            )
            yield Question(0, zone, words, brings=one.zones)


def _far_from_its_bar(plan: Plan, zone: str) -> _Far | None:
    """The first size of a zone that is; only a far end may be ever so thin, and only spread is wider."""
    piece, drawing = plan.recipe.piece_of(zone), plan.recipe.drawing
    across = [piece.stock.sizes_mm[name] for name in _ACROSS if name in piece.stock.sizes_mm]
    for name in _ACROSS if across else ():
        for dimension in (name, f"end_{name}"):
            limits = drawing[zone].limits.get(dimension)
            if limits is None:
                continue
            size_mm = limits.nominal
            wide = size_mm > _TIMES_WIDER * max(across)
            if wide or (dimension == name and size_mm * _TIMES_THINNER < min(across)):
                same = (
                    one
                    for one in piece.every_zone
                    if dimension in drawing[one].limits and drawing[one].limits[dimension].nominal == size_mm
                )
                return _Far(dimension, size_mm, tuple(same))
    return None


def _loose(drawn: ZoneDrawing) -> Iterator[Words]:
    """A tolerance that leaves hardly anything of its size."""
    for name, limits in drawn.limits.items():
        if limits.stated and limits.is_two_sided and limits.high - limits.low > _LOOSE_SHARE * limits.nominal:
            yield say(
                "The {} of {} may be {}: is that tolerance meant?", said(name), drawn.zone, Wanted(limits)
            )


def _other_colour(step: Step) -> Words | None:
    """A colour that no published table has for the temperature beside it.

    An oxide film's colour tells of a run of minutes; beside a soak it says nothing of its heat.
    """
    heat_c = step.temperature_c
    if heat_c is None or not step.colour or "soak" in step.targets:
        return None
    if step.heat_kind is HeatKind.COLD and heat_c > _HOTTEST_TEMPER_C:
        return None
    between = may_be_c(step.colour)
    if between is None or between[0] <= heat_c <= between[1]:
        return None
    return say(
        "Step {}, {}: {} is called {}, and the published tables have that colour between {}: is one of the "
        "two a slip?",
        *(step.number, step.title, celsius(heat_c), step.colour, Span(*between, Kind.TEMPERATURE)),
    )
