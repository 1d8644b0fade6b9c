"""What to do with fire and piece when a job is put down, and what to measure first when it is taken up."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.replay import JobState
from coach.forms import label
from coach.ledger.zone_forecast import expected_size
from coach.operations import Does, operation
from coach.operations.does import HeatKind, Scope
from coach.quantities import Figure, mm
from coach.recipe.model import spoken_of


def rest_words(state: JobState) -> tuple[str, ...]:
    """What to do with fire and piece before leaving them (common practice, no source)."""
    steps = state.plan.recipe.steps
    done = len(state.records)
    last = steps[done] if done < len(steps) and state.marks else steps[done - 1] if done else None
    following = state.step
    words = []
    if last is not None and last.does(Does.QUENCHES):
        words.append(
            "The piece: temper it now, if only by a first warming to a faint straw; until then keep it as "
            "warm as the hand bears, and let nothing strike it."
        )
    elif last is not None and last.heat_kind is not HeatKind.COLD and last.heats:
        words.append(
            "The piece: let it cool in still air until it is black, where nobody takes hold of it; not in "
            "water and not on cold iron."
        )
    if following is not None and following.does(Does.BRIGHT_WORK):
        words.append("Bright faces: oil them, and clean the oil off before the next step.")
    words.append(
        "The fire: draw it apart or let it burn out, blast off and gas shut; nothing burns unattended. The "
        "quench tub: lid on."
    )
    return tuple(words)


class StartingSize(NamedTuple):
    """A size that the next work starts from, to be measured cold before the first heat."""

    zone: str
    dimension: str
    now: Figure  # as it is believed to be
    before: Figure | None  # as the step left it that came before; None where it is still so

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


def first_to_measure(state: JobState) -> tuple[StartingSize, ...]:
    """The sizes to measure cold before the first heat: those the next work starts from, as believed now.

    They may have been changed away from the coach. A zone that nothing was entered for in the step in hand
    is as the step before left it; one that had heats and was not read is somewhere between that and what the
    step makes of it.
    """
    course = state.course()
    if course is None:
        return ()
    found = []
    recipe = state.plan.recipe
    for zone in course.step.zones:
        read = any(
            outcome.mark.reading.zone == zone and outcome.surprise is not None and not outcome.questioned
            for outcome in course.outcomes
        )
        under_way = course.now if read or course.heats else course.start
        now = under_way.zones.get(zone)
        if now is None or now.laid_on is not None:
            continue
        dimensions = spoken_of(now.shape, recipe.drawing[zone].limits)
        names = [name for name in now.shape.own_dimensions if name not in now.linked]
        if operation(course.step.operation).SCOPE is Scope.PIECE:
            names = ["length"] if "length" in names else names
        for name in names:
            size = expected_size(under_way, zone, name)
            if size is None or not (name in dimensions or now.shape != recipe.drawing[zone].shape):
                continue
            before = expected_size(course.start, zone, name) if course.heats and not read else None
            was = mm(before.value, before.doubt) if before is not None else None
            found.append(StartingSize(zone, name, mm(size.value, size.doubt), was))
    return tuple(found)
