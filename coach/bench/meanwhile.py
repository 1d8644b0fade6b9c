"""What another window enters between what is seen here and what is entered here.

What is entered must follow the last entry that its writer has seen. Where neither bears on the other it is
done anew on top of that, and the answer tells what came before it; else it is refused.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import wraps
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar

from coach.log.errors import OutOfDate

if TYPE_CHECKING:
    from coach.bench.answer import Answer
    from coach.bench.in_hand import JobInHand
    from coach.log.entries import Entry

#: How often in a row another window may be the first (our choice).
_TIMES = 8

J = TypeVar("J", bound="JobInHand")
A = ParamSpec("A")
D = TypeVar("D")
_Deed = Callable[Concatenate[J, A], "Answer"]
_May = Callable[[Sequence["Entry"]], bool]


def on_top(deed: Callable[[], D], may: _May) -> tuple[D, list[Entry]]:
    """Do it, anew while another window is first with what it `may` come on top of; what that entered with it.

    Raises OutOfDate where it may not, or where that goes on.
    """
    missed: list[Entry] = []
    for _ in range(_TIMES):
        try:
            return deed(), missed
        except OutOfDate as late:
            if not late.missed or not may(late.missed):
                raise
            missed += late.missed
    return deed(), missed


def all_apart(missed: Sequence[Entry]) -> bool:
    """Whether these are notes and the like alone, which tell of no work."""
    return all(one.body.STANDS_APART for one in missed)


def _entering(may: _May) -> Callable[[_Deed[J, A]], _Deed[J, A]]:
    def decorated(deed: _Deed[J, A]) -> _Deed[J, A]:
        @wraps(deed)
        def entered(job: J, /, *words: A.args, **named: A.kwargs) -> Answer:
            answer, missed = on_top(lambda: deed(job, *words, **named), may)
            return answer._replace(meanwhile=job.told_of(missed)) if missed else answer

        return entered

    return decorated


enters = _entering(all_apart)
"""Of a deed that is done anew where only notes and the like came before it."""

enters_whatever_came = _entering(lambda _: True)
"""Of one that means the same whatever came before it; what cannot be any more is refused as it always is."""
