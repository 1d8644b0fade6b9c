"""The screens run from the first to the last, and what a job opens with drawn for the next time."""

from __future__ import annotations

import sys
from contextlib import suppress
from io import TextIOWrapper
from typing import TYPE_CHECKING, Any

from textual.geometry import Size

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.newest import Newest
from coach.screens import leaving
from coach.screens.app import AtRest, CoachApp
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from coach.remembered import Memory

#: Seconds after which the first screen is looked at where nobody can do anything, and the longest that this
#: may take.
_TO_DRAW_S, _LONGEST_TO_DRAW_S = 0.01, 1.0


def run(
    shop: Shop,
    *,
    session: Session | None = None,
    notice: str = "",
    straight: bool = False,
    at_rest: AtRest | None = None,
    memory: Memory | None = None,
    modes: list[Any] | None = None,
) -> int:
    """Show the screens until the smith leaves; the exit code.

    Args:
        shop: the open log; whoever opened it closes it.
        session: a job to go straight to; None begins at the list of jobs.
        notice: one sentence to show first.
        straight: whether a job under way opens at its bench, without the summary of where it stands.
        at_rest: takes what a job opens with: its newest entry, the screen as it is painted, and the size.
        memory: keeps what was told of the jobs, to be shown sooner.
        modes: what a shell is given the terminal back with, where it has others by now.

    Raises:
        Exception: a fault of the program, once the terminal is as it was; every entry made is kept.
    """
    # A terminal that cannot show a sign gets one character in its place, so that every row stays aligned.
    if isinstance(sys.__stderr__, TextIOWrapper):
        sys.__stderr__.reconfigure(errors="replace")
    from coach.places import choices_file

    not_copied = write(shop.not_copied, Shown(shop.system or "mm"))
    app = CoachApp(
        shop,
        session=session,
        notice=notice or not_copied,
        straight=straight,
        choices_file=choices_file(),
        memory=memory,
        modes=modes,
    )
    if not not_copied:  # else it opens with what will not be so next time
        app.at_rest = at_rest
    with leaving.leaving_when_told(app), suppress(KeyboardInterrupt):  # where there was nothing to leave yet
        try:
            app.run()
        except Exception:
            if not app.stopped_by:
                raise
    if app.fault is not None:
        raise app.fault
    if app.stopped_by:
        return 128 + app.stopped_by  # as shells count it
    if at_rest is not None and app.in_hand is not None and app.in_hand.newest != app.given:
        _draw_for_next_time(app, app.in_hand, at_rest, notice, straight=straight)
    return app.return_code or 0


def _draw_for_next_time(
    left: CoachApp, session: Session, at_rest: AtRest, notice: str, *, straight: bool
) -> None:
    """Draw what a job will open with, on no terminal, once the smith has left it."""
    app = CoachApp(
        left.shop, session=session, notice=notice, straight=straight, choices_file=left.choices_file
    )

    def give(newest: Newest, frame: str, size: Size) -> None:
        at_rest(newest, frame, size)
        app.exit()

    app.at_rest = give
    app.rests_after_s = _TO_DRAW_S
    app.run(headless=True, size=(left.size.width, left.size.height), auto_pilot=_leave_in_time)


async def _leave_in_time(pilot: Pilot[object]) -> None:
    """Nothing that holds the drawing up may hold the smith up."""
    pilot.app.set_timer(_LONGEST_TO_DRAW_S, pilot.app.exit)
