"""Draw again: a section too thick for good is drawn down once more, and the length gains by it."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import FormError
from coach.ledger.amendment import Again, Amendment, NewHeats, Regained
from coach.ledger.course import AmendmentMark
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.grind_thinner import too_thick, wanted_words
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.quantities import NOTHING, as_words, mm, say
from coach.recipe.model import Step

#: How well a section is drawn again, as a share of it, and in how many heats (common practice, no source).
_SCATTER_SHARE = 0.02
DRAWN_IN = 2
_STEEL = as_words("the steel in it is drawn as well: keep to its own forging heat")


class DrawAgain(Remedy):
    """What an end lost, by fire or saw, comes from the stock behind it; once it is hard it does not."""

    NAME = "draw again"
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone with sections over their limits that no step ahead brings down."""
        if situation.is_hard or situation.course is None:
            return
        for zone, wanted in too_thick(situation).items():
            state = situation.now.zones[zone]
            ground, lost = situation.is_ground(zone), _is_lost_of(situation, zone)
            if state.free != "length" or (ground and not lost) or situation.is_bent(zone):
                continue
            form = situation.now.form(zone)
            try:
                after = form.with_sizes(wanted).solved("length", form.volume_mm3())
            except FormError:
                continue
            length_mm = after.size_mm("length")
            gains = mm(length_mm - form.size_mm("length"), _SCATTER_SHARE * length_mm)
            again = _normalised(situation, situation.course.step, zone)
            put_in = isinstance(again, Again)
            yield Idea(
                about=zone,
                title=say("Draw the {} again", wanted_words(situation.plan.recipe.drawing, zone, wanted)),
                changes=say(
                    "From the stock behind it: the {} gets longer by {:~}.{}{}",
                    zone,
                    gains,
                    as_words(" Then normalise it once more.") if again else NOTHING,
                    as_words(" File it true again before the quench.") if ground else NOTHING,
                ),
                amendment=Amendment(
                    regained=tuple(
                        Regained(zone, name, size_mm, _SCATTER_SHARE * size_mm)
                        for name, size_mm in wanted.items()
                    ),
                    heats=() if put_in else more_heats(situation.course.step),
                    again=(again,) if isinstance(again, Again) else (),
                ),
                heats=DRAWN_IN,
                caution=_STEEL if len(state.parts) > 1 else NOTHING,
            )


def _is_lost_of(situation: Situation, zone: str) -> bool:
    """Whether metal of a zone was lost in the step in hand: what was filed of its end is gone with it."""
    marks = situation.course.marks if situation.course is not None else ()
    return any(
        isinstance(mark, AmendmentMark)
        and mark.is_loss
        and any(row.zone == zone for row in mark.amendment.moved)
        for mark in marks
    )


def more_heats(step: Step) -> tuple[NewHeats, ...]:
    """The heats of drawing an end again in a step.

    A treatment keeps its heats, and so does a cold step: those of the drawing are told alone.
    """
    forges = step.heat_kind is HeatKind.FORGING and step.heats
    return (NewHeats(step.number, step.heats + DRAWN_IN),) if forges else ()


def _normalised(situation: Situation, here: Step, zone: str) -> Again | bool:
    """The normalising that is put in before the step in hand; else whether it is told alone."""
    steps = situation.plan.recipe.steps
    behind = [one for one in steps[: here.number - 1] if one.does(Does.NORMALISES) and zone in one.heated]
    ahead = any(one.does(Does.NORMALISES) and zone in one.heated for one in situation.steps_ahead())
    if not behind or ahead:
        return False
    marks = situation.course.marks if situation.course is not None else ()
    untouched = all(isinstance(mark, AmendmentMark) and mark.is_loss for mark in marks)
    return Again(here.number - 1, behind[-1].number, DRAWN_IN + 1) if untouched else True
