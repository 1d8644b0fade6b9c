"""Mark it longer: a zone that is not forged yet takes more of the bar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from coach.ledger.amendment import Amendment, Moved, NewAllowance, OffBar
from coach.ledger.course import HeatMark, ReadingMark
from coach.ledger.remedies.bar_left import bar_left_mm
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.remedies.draw_again import DRAWN_IN, more_heats
from coach.ledger.remedies.lies_longer import lies_longer
from coach.ledger.working import reshapes
from coach.operations.measures import MARK
from coach.quantities import Words, as_words, mm, run_on, say

_MARK: Final = "Mark the {} {} longer on the bar"
_CUT: Final = "Cut the {} {} higher up the bar"


class MarkLonger(Remedy):
    """The cheapest metal there is: what is still in the bar."""

    NAME = "mark longer"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every short zone while no shoulder is set from it to the bar's end.

        A hole sets none: an eye that was punched off its place has its far mark made anew. And an end that
        was drawn at the beginning of the bar is drawn on into it: its shoulder moves along.
        """
        plan = situation.plan
        marks = situation.course.outcomes if situation.course is not None else ()
        if any(one.mark.reading.dimension == MARK and one.judged is not None for one in marks):
            return  # while the bar is being marked a wrong mark is made anew
        for found, lacks in situation.short():
            piece = plan.recipe.piece_of(found.zone)
            zone = piece.root_of(found.zone)
            state = situation.now.zones[zone]
            if not state.has_form or "length" not in state.shape.dimensions:
                continue  # it is split or folded, and has no more of the bar's length to mark
            drawing = plan.recipe.drawing[zone]
            # Of what is marked out for what will be split, a branch has its share.
            lacking = lacks * plan.start_mm3[zone] / plan.start_mm3[found.zone]
            after = piece.zones[piece.zones.index(zone) + 1 :]
            drawn = situation.is_drawn_on_its_bar(zone)
            if any(situation.is_begun(other) for other in after) or (
                situation.has_shoulder(zone) and not drawn
            ):
                continue
            # What the metal lacks, or what a mark set short of the plan's lacks of that, whichever is more; a
            # twentieth of spare, and no mark is moved by less than a quarter of a millimetre (judgement).
            planned, marked = plan.start_mm3[zone], situation.now.volume_mm3(zone)
            begun = situation.is_begun(zone)
            more = 1.05 * lacking if begun else max(1.05 * lacking, planned - marked)
            along = more / situation.bar_area_mm2(zone)
            left_mm = bar_left_mm(situation, piece.name)
            if along < 0.25 or (left_mm is not None and along > left_mm):
                continue
            share = (1.0 + drawing.allowance_share) * (marked + more) / planned - 1.0
            allowances = () if begun else (NewAllowance(zone, share),)
            # What is drawn already, and no step ahead draws, is drawn on into the bar here.
            here = situation.course.step if situation.course is not None else None
            by_hand = (
                drawn
                and here is not None
                and not situation.is_to_be_cut(zone)
                and not any(reshapes(step, zone) for step in situation.steps_ahead())
            )
            others = as_words(", and every mark after it moves along" if after else "")
            if not (drawn and begun) and all(situation.now.has_mark(one) for one in (zone, *after)):
                others = run_on((others, _ends_at(situation, (zone, *after), along)), "")
            yield Idea(
                about=zone,
                title=say(_CUT if situation.is_to_be_cut(zone) else _MARK, zone, mm(along)),
                changes=say(
                    "It takes that much more of the {}{}{}.",
                    *(piece.metal, as_words(", drawn into it as the rest was" if by_hand else ""), others),
                ),
                amendment=Amendment(
                    moved=(Moved(zone, more, 0.0),),
                    regained=(
                        *(situation.marked_anew(one, along) for one in (zone, *after)),
                        *lies_longer(situation, zone, along),
                    ),
                    allowances=allowances,
                    heats=more_heats(here) if by_hand and here is not None else (),
                    off_bar=(OffBar(zone, along),),
                ),
                heats=DRAWN_IN if by_hand else 0,
            )


def _ends_at(situation: Situation, zones: Sequence[str], along_mm: float) -> Words:
    """Where the marks lie then: of each the zone that ends there."""
    marks = [(zone, _end_mm(situation, zone, along_mm)) for zone in zones]
    places = run_on((say("the {} ends at {}", zone, mm(at_mm)) for zone, at_mm in marks), ", ")
    return say(": {} from the end of the bar", places)


def _end_mm(situation: Situation, zone: str, along_mm: float) -> float:
    """Where a zone ends then, on the metal as it lies: what the step in hand makes of it is not made yet.

    What that step has worked already, before it and up to it, is as long as it is by now.
    """
    if situation.is_begun(zone):
        return situation.now.size(zone, MARK).value + along_mm
    zones = situation.plan.recipe.piece_of(zone).zones
    grown = (_grown_in_hand_mm(situation, one) for one in zones[: zones.index(zone)])
    return situation.marked_anew(zone, along_mm).size_mm + sum(grown)


def _grown_in_hand_mm(situation: Situation, zone: str) -> float:
    """How much longer the step in hand has made a zone so far; nothing of what it has not worked yet."""
    here = situation.course
    if here is None or not reshapes(here.step, zone) or not situation.start.has_mark(zone):
        return 0.0
    is_worked = any(
        isinstance(mark, HeatMark) or (isinstance(mark, ReadingMark) and mark.reading.zone == zone)
        for mark in here.marks
    )
    if not is_worked:
        return 0.0
    return situation.now.size(zone, "length").value - situation.start.size(zone, "length").value
