"""A recipe's piece of another steel: what a spark or a file told of the bar that is being forged."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any, Final

from coach.metals.grade import grade
from coach.quantities.errors import did_you_mean
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words, say
from coach.recipe.model import Recipe

#: `grade C60`, and of several pieces `grade edge = C60`.
GRADE: Final = re.compile(
    r"(?:grade|metal|steel)\s*(?:[:=]\s*)?(?:(?P<piece>[^=:]+?)\s*[=:]\s*)?(?P<grade>[^=:]+)"
)


def regraded(pieces: Mapping[str, dict[str, Any]], recipe: Recipe, found: re.Match[str]) -> Words:
    """The pieces of a recipe spelt out with another grade, and that in words.

    Raises a Refusal where the piece is none, where it is not said which, or where there is no such grade.
    """
    # What is of the same bar as another says no metal of its own: it goes with that.
    own = [name for name, piece in pieces.items() if "metal" in piece and not recipe.pieces[name].layers]
    if not own:
        raise Refusal("Another grade is told of a piece of one metal, and here there is none.")
    if not found["piece"]:
        _refuse_without_its_sign(found["grade"].strip(), own)
    metal = grade(found["grade"].strip()).name
    name = (found["piece"] or "").strip()
    if not name and len({recipe.pieces[one].metal for one in own}) == 1:
        chosen = own
    elif name in own:
        chosen = [one for one in own if recipe.pieces[one].row == recipe.pieces[name].row]
    else:
        there = ", ".join(own)
        why = did_you_mean(name, own, f"there are {there}.") if name else f"say of which: {there}."
        raise Refusal("Of what is the grade another? Write grade {} = {}: {}", own[0], metal, why)
    was = recipe.pieces[chosen[0]].metal
    if all(grade(recipe.pieces[one].metal).name == metal for one in chosen):
        raise Refusal("The {} is {} already.", chosen[0], metal)
    for one in chosen:
        pieces[one]["metal"] = metal
    return say("the {} is {}, not {}", chosen[0] if name else " and ".join(chosen), metal, was)


def _refuse_without_its_sign(typed: str, pieces: Sequence[str]) -> None:
    """Raises a Refusal where a piece and its grade are typed with nothing between them."""
    for piece in pieces:
        if typed.startswith(f"{piece} "):
            metal = grade(typed.removeprefix(piece).strip()).name
            raise Refusal("Of a piece a grade is told with = between: write grade {} = {}.", piece, metal)
