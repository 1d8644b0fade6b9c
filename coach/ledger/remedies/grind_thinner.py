"""Grind thinner: a section too thick for good is taken down by file or stone, and the length stays."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coach.forms import label
from coach.ledger.amendment import Amendment, Moved, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.take_back import by_the_stone
from coach.ledger.verdict import SizeState
from coach.ledger.workpiece import size_name
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import Words, aimed, as_words, run_on, say
from coach.recipe.model import ZoneDrawing

#: How well a section is ground, and how well what comes off is known (common practice, no source).
_SCATTER_MM = 0.3
_REMOVED_DOUBT_SHARE = 0.1
#: More than this share of a zone is not taken off by stone or file (judgement).
_MOST_SHARE = 0.5
_WHEELS = as_words("wheels and dust: eyes and lungs covered, the guard in its place")


class GrindThinner(Remedy):
    """Where no hammer comes to it any more, or nobody wants to light the fire for it."""

    NAME = "grind thinner"
    SOUNDNESS = Soundness.SOUND

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone with sections over their limits that no step ahead brings down."""
        for zone, wanted in too_thick(situation).items():
            believed = situation.now.form(zone)
            stays = tuple(length_stays(situation, zone))
            form = believed.with_sizes({one.dimension: one.size_mm for one in stays})
            there_mm3, left_mm3 = form.volume_mm3(), form.with_sizes(wanted).volume_mm3()
            removed = there_mm3 - left_mm3
            moved = left_mm3 - believed.volume_mm3()  # a length that was read tells of the metal, too
            if not 0.0 < removed < _MOST_SHARE * there_mm3:
                continue
            how = "Grind" if situation.is_hard_at(zone) else "File"
            yield Idea(
                about=zone,
                title=say("{} the {}", how, wanted_words(situation.plan.recipe.drawing, zone, wanted)),
                changes=as_words("Evenly from both faces; its length stays."),
                amendment=Amendment(
                    moved=(Moved(zone, moved, _REMOVED_DOUBT_SHARE * removed),),
                    regained=(
                        *(Regained(zone, name, size, _SCATTER_MM) for name, size in wanted.items()),
                        *stays,
                    ),
                ),
                caution=run_on(filter(None, (by_the_stone(situation, zone), _WHEELS)), "; "),
            )


def length_stays(situation: Situation, zone: str) -> Iterator[Regained]:
    """A zone's length, which the stone leaves as well known as it was: what came off is told by it.

    Of one that was read that is what was read, whatever a section read since makes of it.
    """
    now = situation.now
    if now.zones[zone].free == "length":
        there = now.size(zone, "length")
        told = situation.told.get(size_name(zone, "length"))
        if told is not None and told.measured and not situation.steps_that_shape(told):
            size, doubt = told.expected.value, told.expected.doubt or 0.0
            yield Regained(zone, "length", size, doubt)
        else:
            yield Regained(zone, "length", there.value, there.doubt)


def too_thick(situation: Situation) -> dict[str, dict[str, float]]:
    """By zone, the sections over their limits for good that go through it, with what each is brought to.

    So are those that were read too near their upper limit for anyone to be sure of them, once nothing works
    them any more. Widths are trimmed from the edges, and holes are another matter.
    """
    found: dict[str, dict[str, float]] = {}
    over = [size for size in situation.stuck() if size.state is SizeState.OVER]
    for size in (*over, *_too_near(situation)):
        state = situation.now.zones[size.zone]
        through = not any(word in size.dimension for word in ("width", "hole", "length"))
        is_its = state.has_form and size.dimension in state.shape.dimensions
        if through and is_its and size.dimension != state.free:
            found.setdefault(size.zone, {})[size.dimension] = size.wanted.limits.nominal
    return found


def _too_near(situation: Situation) -> Iterator[FinishedSize]:
    """The sizes inside, as they seem, that were read as near to their upper limit as their doubt."""
    for size in situation.told.values():
        inside = size.state is SizeState.GOOD and size.only_seems and not size.take_up
        if inside and size.bound_mm == size.wanted.limits.high and not situation.steps_that_shape(size):
            yield size


def wanted_words(drawing: Mapping[str, ZoneDrawing], zone: str, wanted: Mapping[str, float]) -> Words:
    """What a zone's sections are brought to: "edge end thickness to 3 mm"."""
    limits = drawing[zone].limits
    sizes = (
        say("{} to {:aim}", label(zone, name), aimed(size_mm, limits[name]))
        for name, size_mm in wanted.items()
    )
    return run_on(sizes, ", ")
