"""Changes of a recipe for the next job of it, with what they would do before they are made."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from difflib import unified_diff
from functools import reduce
from typing import NamedTuple, Protocol, TypeAlias

from coach.bench.begun_with import Known
from coach.bench.chance_fell import chance_fell
from coach.bench.outlook import Outlook, outlook
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import SizeState
from coach.quantities import Figure, mm
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, as_words, run_on, say
from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Recipe

#: What the next job of a recipe begins with of the shop and the hand. Another count of heats is another
#: plan for what a shop has learned of its heats: what is planned as it was taken is not counted up by it.
BeginsWith: TypeAlias = Callable[[Recipe], tuple[Known, ...]]
#: Less than this of the chance is not worth a change (judgement).
_LEAST_CHANCE = 0.01


class Edit(NamedTuple):
    """A change of the recipe for next time, with what it would do; nothing is changed by telling it."""

    line: str  # as `coach change` would take it: `heats 4 = 5`; several with `; ` between them
    told: Words  # what is changed
    diff: tuple[str, ...]  # the recipe's lines that go and come, as `-` and `+`
    chance_before: float  # of the recipe as it was begun by
    chance_after: float  # of the changed one
    bar_before: Figure  # the length of bar that all of its pieces take
    bar_after: Figure
    heats_before: int
    heats_after: int


class Try(Protocol):
    """Tells what a change of the recipe would do, or why it is not offered."""

    def __call__(self, line: str, told: Words, *, betters: bool = True) -> Edit | Words:
        """What it would do; as `edit_of` has it."""


def with_lines(recipe: Recipe, lines: Sequence[str]) -> str:
    """The recipe's text with these changes, one after the other; raises Refusal, RecipeFaults, KeyError."""
    from coach.recipe.in_place import edited

    return reduce(lambda text, line: edited(text, recipe.source, line), lines, recipe.text)


def edit_of(
    recipe: Recipe, begins_with: BeginsWith, line: str | Sequence[str], told: Words, *, betters: bool = True
) -> Edit | Words:
    """What a change, or several at once, would do.

    Why it is not offered where it cannot be so, or is to better and does not.
    Heats are planned as they are taken, though the scale of more of them is counted then as well.
    Each recipe stands by what its own next job begins with.
    """
    from coach.recipe.reader import read_recipe

    lines = (line,) if isinstance(line, str) else tuple(line)
    try:
        text = with_lines(recipe, lines)
        changed = read_recipe(text, recipe.source)
        before, after = (look_back(one) for one in (read_recipe(recipe.text, recipe.source), changed))
    except RecipeFaults as refused:
        return say("the recipe could not be so: {}", refused.faults[0].message)
    except Refusal as refused:
        return say("the recipe could not be so: {}", refused.words)
    except KeyError:
        return as_words("the recipe is written otherwise")
    then = outlook(after, begins_with(changed))
    stood, stands = outlook(before, begins_with(recipe)).chance, then.chance
    if betters and stands < stood - _LEAST_CHANCE:
        told = say("with it the chance would go {}", chance_fell(stood, stands))
        return run_on((told, _why_less(then)), ": ")
    bars = [mm(sum(piece.length.value for piece in plan.pieces.values())) for plan in (before, after)]
    heats = [sum(step.heats for step in plan.recipe.steps) for plan in (before, after)]
    return Edit(
        line="; ".join(lines),
        told=told,
        diff=tuple(_diff(recipe.text, text)),
        chance_before=stood,
        chance_after=stands,
        bar_before=bars[0],
        bar_after=bars[1],
        heats_before=heats[0],
        heats_after=heats[1],
    )


def _why_less(then: Outlook) -> Words:
    """The size that a change would bring out of its limits, or nearest to them."""
    worst = min(then.sizes, key=lambda one: (one.state is SizeState.GOOD, one.chance), default=None)
    if worst is None:
        return NOTHING
    told = "the {} would come out at {:±}, and {} is wanted"
    return say(told, worst.label, worst.expected, worst.wanted)


def _diff(before: str, after: str) -> Iterator[str]:
    lines = unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
    return (line for line in lines if line[:1] in "+-" and line[:3] not in ("+++", "---"))
