"""Cut another piece: what is spoiled of several is made once more from its bar, while it is loose still."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Again, Amendment, CutAnew
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness, zones_wrong
from coach.ledger.remedies.do_again import put_in_after
from coach.ledger.verdict import SizeState
from coach.operations import Does
from coach.quantities import NOTHING, as_words, counted, run_on, say
from coach.recipe.model import Piece, Step


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
    in_hand = bool(situation.course.marks)
    behind = recipe.steps[: here.number if in_hand else here.number - 1]
    own = [step for step in behind if zones >= {*step.zones} and not step.does(Does.MARKS_OUT)]
    if not own or any(_joins(step, zones) for step in behind):
        return
    if in_hand and here not in own:
        return  # that is finished first
    after = put_in_after(situation, own[-1])
    marked = [step for step in behind if zones >= {*step.zones} and step.does(Does.MARKS_OUT)]
    again = sorted((*marked, *own), key=lambda step: step.number)
    planned = situation.plan.pieces[piece.name]
    short = planned.left_over is not None and planned.left_over.value < 2.0 * planned.length.value
    section = run_on((say("{}", size) for size in planned.stock.sizes), " × ")
    heats = sum(step.heats for step in again)
    yield Idea(
        about=piece.name,
        title=say("Cut another {}: {} of its bar of {}", piece.name, planned.length, section),
        changes=say(
            "{} again, from step {} on; what was made of it is set aside, and its heats stay in the record.",
            counted(len(again), "step"),
            after + 1,
        ),
        amendment=Amendment(
            again=tuple(Again(after, step.number, step.heats) for step in again),
            cut_anew=tuple(CutAnew(zone) for zone in piece.zones),
        ),
        heats=heats,
        caution=as_words("the bar that was named may not have so much left") if short else NOTHING,
    )


def _joins(step: Step, zones: set[str]) -> bool:
    """Whether a step has brought the piece together with another."""
    met = {*step.zones, *step.heated, *((step.lays,) if step.lays else ()), *step.holds}
    return bool(met & zones) and not zones >= met
