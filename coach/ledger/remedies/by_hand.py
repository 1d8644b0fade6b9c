"""By hand: what the metal account knows nothing of, such as a warp, or an end that is burnt and comes off."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from coach.forms import said
from coach.ledger.amendment import Amendment
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.operations import Does
from coach.quantities import Words, as_words, say
from coach.recipe.model import Step

_CRACK_TEST: Final = "crack_test"
_RING_TEST: Final = "ring_test"


#: Steel that was so hot is coarse (common practice, no source).
_NORMALISED: Final = "What is left of the {} is normalised and brought to its own heat again."
_TREATED_ANEW: Final = (
    "This alone puts in no step: once the loss is entered, ways back draw out what is left of the {} where "
    "it is too thick, normalise it and harden it again."
)
#: What is told of work that takes a heat of its own (our choice).
_TAKES_A_HEAT: Final = re.compile(
    r"\b((one more|another|a full) heat|put in a heat|at orange)\b", re.IGNORECASE
)


class ByHand(Remedy):
    """It is done, measured again or taken off the list; no size of the drawing goes by it."""

    NAME = "by hand"
    HELPS = False
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One for every thing left wrong to which its operation has an answer; one for what burnt."""
        for zone in situation.burnt:
            yield Idea(
                about=f"{zone}.burnt",
                title=say("Cut off what is burnt of the {}", zone),
                changes=say(
                    "Burnt steel is pitted, or crumbles where it breaks, and no heat and no quench mends it: "
                    "cut back to a fine, grey break, and enter what came off as metal lost. A corner is "
                    "filed back, and its sizes are read again. {}",
                    say(_TREATED_ANEW if _is_hard(situation, zone) else _NORMALISED, zone),
                ),
                amendment=Amendment(),
                caution=as_words(
                    "An end that is broken to look at its grain flies: eyes covered, under a cloth."
                ),
            )
        for failed in situation.failed:
            if failed.dimension == _CRACK_TEST and not situation.is_met(failed):
                yield _without_crack(failed.zone, hard=_is_hard(situation, failed.zone))
            elif (
                failed.dimension == _RING_TEST and not situation.is_met(failed) and not _is_joined(situation)
            ):
                yield _where_it_is(failed.zone)
        for zone, dimension, words in situation.left_wrong:
            yield Idea(
                about=f"{zone}.{dimension}",
                title=say("Put the {} of the {} right", said(dimension), zone),
                changes=words,
                amendment=Amendment(),
                heats=1 if _takes_a_heat(words) else 0,
            )


def _takes_a_heat(words: Words) -> bool:
    """Whether what is told asks for a heat of its own."""
    parts = (one for one in words.parts if isinstance(one, str | Words))
    within = (_takes_a_heat(one if isinstance(one, Words) else Words(one)) for one in parts)
    return bool(_TAKES_A_HEAT.search(words.template)) or any(within)


def _is_hard(situation: Situation, zone: str) -> bool:
    """Whether a step that is done or in hand quenches a zone."""
    return any(one.does(Does.QUENCHES) and zone in (*one.zones, *one.heated) for one in _done(situation))


def _is_joined(situation: Situation) -> bool:
    """Whether anything in the piece has been welded."""
    return any(one.does(Does.JOINS) or one.does(Does.CLOSES) for one in _done(situation))


def _done(situation: Situation) -> tuple[Step, ...]:
    """The steps that are done, and the one in hand."""
    return situation.plan.recipe.steps[: situation.next_step - 1 + (situation.course is not None)]


def _where_it_is(zone: str) -> Idea:
    """Of one piece without a joint a dull note is a crack, if it hung free (common practice, no source)."""
    return Idea(
        about=f"{zone}.{_RING_TEST}",
        title=say("Look for the crack in the {}", zone),
        changes=as_words(
            "It has no joint that could be open: hang it free and ring it once more. If it is dull again "
            "make the crack test, with oil and chalk, all round; what it shows is ground out or cut off."
        ),
        amendment=Amendment(),
    )


def _without_crack(zone: str, *, hard: bool) -> Idea:
    """A shallow crack is ground out; what is cracked deeper is cut off (common practice, no source)."""
    return Idea(
        about=f"{zone}.{_CRACK_TEST}",
        title=say("Grind out the crack in the {}, or cut it off", zone),
        changes=as_words(
            "Where it is shallow grind along it, cool, till it is gone, and make the crack test anew. A "
            "deeper one is cut off beyond its end; enter what came off as metal lost"
            + (", and harden what is left anew." if hard else ".")
        ),
        amendment=Amendment(),
        caution=as_words("A cracked piece can part at the wheel: eyes and face covered, nobody in line."),
    )
