"""Command lines, several on one shop."""

from __future__ import annotations

from functools import cache

from hypothesis import strategies as st

from coach.cli.line import verbs
from tests.fuzz.odd import TEXTS, a_home, typed

#: That wait for a terminal or write where they are told to are of no use here.
_LEFT_OUT = {"open", "demo"}
_TYPED = """
    first-hook first hook-2 tip shank plate tip.mark=31 tip.mark=31.4 shank.mark=104 plate.mark=141
    tip.length=90 tip.mark= =3 tip.mark 1 2 3 9 10 0 -1 99 201 mild-steel C45 W1 round square flat 10
    12.5 40x10 20mm 3/4 in 800C 1500F water oil air 5min carpenters-adze first-hook.job.jsonl out.svg
    --json --units=in --units=mm --all --force --look --now --hot --cold --insist --heats --at --name=x
    --name --of=stock --of=finished --piece=hook --svg=a.svg --spare --entries --right --zone=tip
    --gauge=rule --gauge=calliper --second=. --help --shop=other.sqlite - --
"""
_WORDS = _TYPED.split()


@cache
def _verbs() -> list[str]:
    return [verb for verb in verbs() if verb not in _LEFT_OUT]


_LINES = st.builds(
    lambda verb, words: [verb, *words],
    st.deferred(lambda: st.sampled_from(_verbs())),
    st.lists(st.sampled_from(_WORDS) | TEXTS.filter(lambda text: "\x00" not in text), max_size=5)
    | st.lists(st.sampled_from(_WORDS), max_size=3).map(lambda words: ["first-hook", *words]),
)
VALUES = st.lists(_LINES, min_size=1, max_size=5)


def check(value: list[list[str]]) -> None:
    """Type them in turn; afterwards the shop is as sound as before."""
    with a_home():
        for words in value:
            typed(words)
        assert typed(["jobs"]) == 0
        assert typed(["check-log"]) == 0
