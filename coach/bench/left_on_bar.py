"""A spoiled piece that another is cut in place of, while it holds others on its bar: it is cut off first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.log.kinds.way_back import WayBackTaken
from coach.operations import Does
from coach.recipe.model import Step


class LeftOnBar(NamedTuple):
    """One that lies before others on their bar."""

    entry: int  # of the way back by which another is cut
    piece: str
    step: Step  # behind which it is made anew
    holds: str  # the piece that lies behind it

    @property
    def text(self) -> str:
        """What is to be done."""
        return (
            f"the spoiled {self.piece} is still the end of its bar: cut it off before {self.holds} is worked"
        )


def left_on_bar(state: JobState) -> Iterator[LeftOnBar]:
    """Each until the piece that lies behind it is worked, or given up: its own cut takes both off then."""
    recipe, done = state.plan.recipe, len(state.records)
    for number, entry in state.counted.items():
        amendment = entry.body.amendment if isinstance(entry.body, WayBackTaken) else None
        for off in amendment.off_bar if amendment is not None and amendment.again else ():
            held = recipe.pieces.get(off.holds)
            if amendment is None or held is None or held.given_up:
                continue
            after = min(one.after for one in amendment.again)
            worked = (step for step in recipe.steps[after:done] if not step.does(Does.MARKS_OUT))
            if not any({*held.zones} & {*step.zones} for step in worked):
                piece = recipe.piece_of(off.zone).name
                yield LeftOnBar(number, piece, recipe.steps[after - 1], held.name)
