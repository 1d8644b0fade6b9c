"""A job begun from a recipe: from the bar that the recipe names, or from one that lies there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from coach.bench.rack import NO_CUTS, RackCuts, what_lies_there
from coach.quantities import Refusal
from coach.recipe.faults import RecipeFaults
from coach.recipe.text import file_text

if TYPE_CHECKING:
    from coach.screens.app import CoachApp
    from coach.screens.screen import CoachScreen


def begin(coach: CoachApp, screen: CoachScreen, path: Path) -> None:
    """Begin a job from a recipe file; where bars of its grade lie on the rack, ask which it is to be."""
    try:
        asks = _asks(coach, path)
    except Refusal:
        asks = False  # what is wrong is told as it is begun
    if asks:
        coach.lay_over("rack", path)
    else:
        begin_from(coach, screen, path, file_text)


def begin_from(
    coach: CoachApp,
    screen: CoachScreen,
    path: Path,
    text_of: Callable[[Path], str],
    cuts: RackCuts = NO_CUTS,
) -> None:
    """Begin it and go to its bench; what is wrong is shown on the screen."""
    try:
        session = coach.shop.begin(text_of(path), str(path), cuts=cuts)
    except RecipeFaults as refused:
        coach.lay_over("faults", path.stem, tuple(fault.words for fault in refused.faults))
    except Refusal as refusal:
        screen.refuse(refusal)
    else:
        coach.in_hand = session
        coach.say_once(session, session.begun())


def _asks(coach: CoachApp, path: Path) -> bool:
    rack = coach.shop.rack.now(as_planned=True)
    if not rack.bars:
        return False
    from coach.recipe.reader import read_recipe

    return bool(what_lies_there(rack, read_recipe(file_text(path), str(path))))
