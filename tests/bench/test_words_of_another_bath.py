"""Words that were written for another bath than a step has are told to be so, above them."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from tests.bench.jobs import at_step_of, begun

CHISEL = """\
recipe: Chisel
pieces:
  bar:
    metal: C80
    bar: square 12
    zones:
      edge: square 12 ±1, long 60 ±9
steps:
  - normalise: edge, at 855 °C
  - harden: edge, at 790 °C, quench {bath}
    how: {how}
  - temper: edge, at 278 °C, soak 1 h
"""
TOLD = "whatever these words, written for another, say of"


def how(session: Session) -> str:
    step = session.standing().step
    assert step is not None
    return step.how


# No water may get into hot oil, which boils over (29 CFR 1910.126, confirmed): who reads "straight down
# into water" above a tub of oil must know which counts.
@pytest.mark.parametrize(
    ("bath", "words", "told"),
    [
        ("oil", "Straight down into Water, and move it.", "The bath is oil, "),
        ("fast oil", "Straight down into the water.", "The bath is fast oil, "),
        ("water", "Into the oil, edge first.", "The bath is water, "),
        ("water", "Into the brine, edge first.", ""),
        ("brine", "Into the water, edge first.", ""),
        ("fast oil", "Into the oil, and never into water.", ""),
        ("water", "Edge first, and no waterline.", ""),
        ("oil", "Through the air in a second.", ""),
    ],
)
def test_words_that_name_another_bath_alone_are_told_to_be_of_another(
    bath: str, words: str, told: str
) -> None:
    session = begun(CHISEL.format(bath=bath, how=words))
    session.done()
    assert how(session).endswith(words)
    assert how(session).startswith(told)
    assert (TOLD in how(session)) is bool(told)


def test_a_bath_changed_in_a_job_by_a_line_is_told_above_the_words_kept_of_the_old() -> None:
    session = at_step_of("cold-chisel", 9)
    before = how(session)
    assert "water" in before
    session.change("step 9: harden: edge, at 780 to 810 °C, soak 5 to 10 min, 1 heat, quench oil")
    told, _, words = how(session).partition("\n")
    assert told.startswith("The bath is oil, ")
    assert words == before
