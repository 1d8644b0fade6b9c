"""Cut another piece: what is spoiled of several is made once more from its bar, while it is loose still."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Again, Amendment, CutAnew, OffBar
from coach.ledger.course import AmendmentMark, Mark, ReadingMark
from coach.ledger.remedies.bar_left import bar_left_mm
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness, zones_wrong
from coach.ledger.remedies.do_again import put_in_after
from coach.ledger.spoiled_on_bar import behind_on_its_bar
from coach.ledger.verdict import SizeState
from coach.operations import Does
from coach.quantities import NOTHING, Words, counted, mm, run_on, say
from coach.recipe.model import Piece, Step

_OF_ITS_OWN = "Cut another {}: {} of its bar of {}"
_OF_ANOTHER = "Cut another {}: {} of another bar of {}"
_OF_RACK = "Cut another {}: {} of {}, {}"
_CUT_OFF_FIRST = " The spoiled one is still the end of its bar: cut it off before {} is worked."
_AS_IT_IS = ", once the step in hand is done as it is"


class CutAnother(Remedy):
    """A small piece is soon made anew, and the rest of the job goes on."""

    NAME = "cut another"
    SOUNDNESS = Soundness.WITH_CARE  # a whole body is not soon made anew

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every begun piece that something is wrong with and that nothing is joined to yet."""
        pieces = situation.plan.recipe.pieces
        if len(pieces) < 2 or situation.course is None:
            return
        wrong = zones_wrong(situation.found) | {failed.zone for failed in situation.failed}
        wrong |= {size.zone for size in situation.told.values() if size.state is not SizeState.GOOD}
        for piece in pieces.values():
            if wrong & {*piece.zones} and not (piece.layers or piece.source or piece.branches):
                yield from _anew(situation, piece)


def _anew(situation: Situation, piece: Piece) -> Iterator[Idea]:
    zones, recipe = {*piece.zones}, situation.plan.recipe
    assert situation.course is not None
    here = situation.course.step
    in_hand = any(_is_work(one, here) for one in situation.course.marks)
    behind = recipe.steps[: here.number if in_hand else here.number - 1]
    own = [step for step in behind if zones >= {*step.zones} and not step.does(Does.MARKS_OUT)]
    if not own or any(_joins(step, zones) for step in behind):
        return
    if in_hand and here not in own:
        return  # that is finished first
    after = put_in_after(situation, own[-1]) if in_hand else max(here.number - 1, own[-1].number)
    after = max(after, _free_of_the_bar(situation, piece))
    marked = [step for step in behind if zones >= {*step.zones} and step.does(Does.MARKS_OUT)]
    again = sorted((*marked, *own), key=lambda step: step.number)
    holds = next(iter(behind_on_its_bar(recipe, piece.name, recipe.steps[:after])), "")
    planned = situation.plan.pieces[piece.name]
    left_mm = bar_left_mm(situation, piece.name)
    short_mm = left_mm if left_mm is not None and left_mm < planned.length.value else None
    sizes = run_on((say("{}", size) for size in planned.stock.sizes), " × ")
    section = sizes if planned.stock.form == "flat" else say("{} {}", planned.stock.form, sizes)
    heats = sum(step.heats for step in again)
    on_rack = situation.another_bar if short_mm is not None else None
    lies = on_rack(piece.name, planned.length.value) if on_rack is not None else ""
    title = say(_OF_ITS_OWN if short_mm is None else _OF_ANOTHER, piece.name, planned.length, section)
    yield Idea(
        about=piece.name,
        title=say(_OF_RACK, piece.name, planned.length, lies, section) if lies else title,
        changes=say(
            "{} again, from step {} on{}; what was made of it is set aside, and its heats stay in the record"
            ".{}{}",
            counted(len(again), "step"),
            after + 1,
            _AS_IT_IS if in_hand else "",
            say(_CUT_OFF_FIRST, holds) if holds else NOTHING,
            NOTHING if short_mm is not None else _at_which_end(situation, piece, after),
        ),
        amendment=Amendment(
            again=tuple(Again(after, step.number, step.heats) for step in again),
            cut_anew=tuple(CutAnew(zone, situation.now.volume_mm3(zone)) for zone in piece.zones),
            off_bar=(OffBar(piece.zones[0], planned.length.value, short_mm is not None, holds),),
        ),
        heats=heats,
        off_rack=lies,
        caution=NOTHING if short_mm is None else say("its own bar has only {} left", mm(max(short_mm, 0.0))),
    )


def _is_work(mark: Mark, step: Step) -> bool:
    """Whether it begins the step: what was lost or read of another piece is no work on the one in hand."""
    if isinstance(mark, ReadingMark):
        return mark.reading.zone in step.zones
    return not (isinstance(mark, AmendmentMark) and mark.is_loss)


def _at_which_end(situation: Situation, piece: Piece, after: int) -> Words:
    """Where it is marked out, while the end of its bar is marked out for another piece that lies there."""
    recipe = situation.plan.recipe
    behind, until_then = recipe.steps[: situation.next_step - 1], recipe.steps[:after]
    for other in recipe.pieces.values() if recipe.marks_in_row else ():
        is_marked = any(step.does(Does.MARKS_OUT) and {*step.zones} & {*other.zones} for step in behind)
        is_off = any(step.does(Does.CUTS_FREE) and other.zones[-1] in step.zones for step in until_then)
        if other.row == piece.row and other is not piece and is_marked and not is_off:
            return say(
                " It is marked out from the other end of the bar, or on another one: {} lies at this end.",
                other.name,
            )
    return NOTHING


def _joins(step: Step, zones: set[str]) -> bool:
    """Whether a step has brought the piece together with another."""
    met = {*step.metal, *step.holds}
    return bool(met & zones) and not zones >= met


def _free_of_the_bar(situation: Situation, piece: Piece) -> int:
    """The step ahead that cuts off what is worked on the end of the same bar; 0 where nothing is."""
    recipe = situation.plan.recipe
    on_it = [
        other
        for other in recipe.pieces.values()
        if other.row == piece.row and other is not piece and any(map(situation.is_begun, other.zones))
    ]
    cuts = [
        step.number
        for step in situation.steps_ahead()
        for other in on_it
        if step.does(Does.CUTS_FREE) and other.zones[-1] in step.zones
    ]
    return max(cuts, default=0)
