"""Sizes as they are typed at the bench."""

from __future__ import annotations

from hypothesis import strategies as st

from coach.quantities.refusal import Refusal
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop
from tests.fuzz.odd import TEXTS
from tests.screens.stage import a_job

_TYPED = """
    0 1 2 12 31.5 31,5 .5 1. 1/2 3/8 1e3 1e-9 007 ½ ¼ ٣ −1 -1 + 1000000 mm cm m in inch inches ft ' " ″
    ′ g kg lb oz oz/lb °C °F C F K min s h deg ° HRC bl / ± +- +/- +1 -1 to - – ~ at least most about x
    = ( ) , . ; #
"""
_PARTS = [*_TYPED.split(), "\u2009", "\u00a0"]
_PIECES = st.lists(st.sampled_from(_PARTS), min_size=1, max_size=6)
VALUES = st.tuples(
    st.sampled_from(["point.side", "point.length", "shank.side", "point.mass", "nothing.here", "", "point"]),
    st.builds("".join, _PIECES) | st.builds(" ".join, _PIECES) | TEXTS,
)


def check(value: tuple[str, str]) -> None:
    """Read a size, and whatever came of it is told."""
    name, text = value
    with shop() as place:
        session = a_job(place)
        try:
            session.read(name, text)
        except Refusal as refused:
            if not write(refused.words, Shown("mm")).strip():
                raise ValueError("it is refused without a word") from refused
        session.standing()
